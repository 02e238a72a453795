package org.steadyshaft.blip;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.VoltagePiece;

/** Finds the sudden changes of the speed in a recording, piece by piece. */
public final class EventFinder {
    private static final double SAME_SECONDS = 0.1;

    /** The place of a step of the pick-up is known to half a block. */
    private static final double BESIDE_HUM_SECONDS = 0.25;

    private final LocalModel model;

    public EventFinder(LocalModel model) {
        this.model = model;
    }

    /**
     * Looks through the recording; the parts are fixed by position, so that the number of threads changes nothing.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public ShaftEvents find() throws IOException {
        List<LocalModel.Part> parts = model.parts();
        ShaftEvents[] found = new ShaftEvents[parts.size()];
        try {
            IntStream.range(0, found.length).parallel().forEach(i -> found[i] = of(parts.get(i)));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        List<Kink> kinks = new ArrayList<>();
        List<RecorderFault> faults = new ArrayList<>();
        List<ShaftEvents.Sensitivity> sensitivity = new ArrayList<>();
        for (ShaftEvents part : found) {
            kinks.addAll(part.kinks());
            faults.addAll(part.faults());
            sensitivity.addAll(part.sensitivity());
        }
        return new ShaftEvents(kinks, joined(faults), sensitivity);
    }

    /** Pick-up that goes on from part to part is one. */
    private static List<RecorderFault> joined(List<RecorderFault> faults) {
        List<RecorderFault> joined = new ArrayList<>();
        for (RecorderFault fault : faults) {
            RecorderFault last = joined.isEmpty() ? fault : joined.get(joined.size() - 1);
            boolean goesOn = fault.kind() == RecorderFault.Kind.PICK_UP
                    && last.kind() == RecorderFault.Kind.PICK_UP
                    && last != fault
                    && fault.where().fromSeconds() - last.where().toSeconds() < SAME_SECONDS;
            if (goesOn) {
                joined.set(
                        joined.size() - 1,
                        new RecorderFault(
                                fault.kind(),
                                new Stretch(
                                        last.where().fromSeconds(),
                                        fault.where().toSeconds()),
                                Math.max(last.amount(), fault.amount())));
            } else {
                joined.add(fault);
            }
        }
        return joined;
    }

    private ShaftEvents of(LocalModel.Part part) {
        try {
            VoltagePiece piece = model.look(part);
            Stretch core = part.core();
            double swing = PickUpBeat.swing(piece, model.mainsHz());
            if (swing > 0) {
                RecorderFault pickUp = new RecorderFault(RecorderFault.Kind.PICK_UP, core, swing);
                return new ShaftEvents(List.of(), List.of(pickUp), List.of());
            }
            PieceEvents events = new PieceEvents(model, piece);
            List<Kink> found = events.find();
            if (!(events.smallestPercent() > 0)) {
                // damage without noise or level: nothing can be judged there
                return ShaftEvents.NONE;
            }
            List<RecorderFault> ofPiece = events.faults();
            List<Kink> kinks = found.stream()
                    .filter(k ->
                            isIn(core, k.startSeconds()) && ofPiece.stream().noneMatch(f -> bends(f, k)))
                    .toList();
            List<RecorderFault> faults = ofPiece.stream()
                    .filter(f -> isIn(core, f.where().fromSeconds()))
                    .toList();
            return new ShaftEvents(kinks, faults, List.of(new ShaftEvents.Sensitivity(core, events.smallestPercent())));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Whether a change is what a large step of the pick-up makes of the angle until the fitted hum has followed. */
    private static boolean bends(RecorderFault fault, Kink kink) {
        return fault.kind() == RecorderFault.Kind.HUM_STEP
                && fault.amount() > PieceEvents.LARGE_HUM
                && kink.startSeconds() > fault.where().fromSeconds() - BESIDE_HUM_SECONDS
                && kink.startSeconds() < fault.where().toSeconds() + BESIDE_HUM_SECONDS;
    }

    private static boolean isIn(Stretch core, double seconds) {
        return seconds >= core.fromSeconds() && seconds < core.toSeconds();
    }
}
