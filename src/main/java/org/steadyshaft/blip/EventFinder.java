package org.steadyshaft.blip;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.steadyshaft.voltage.LocalModel;

/** Finds the sudden changes of the speed in a recording, piece by piece. */
public final class EventFinder {
    private final LocalModel model;

    public EventFinder(LocalModel model) {
        this.model = model;
    }

    /** What one part of the recording gave. */
    record PartEvents(List<Kink> kinks, List<PieceEvents.Jump> jumps, double smallestPercent, int places) {}

    /** Everything found, in order. */
    record Events(List<Kink> kinks, List<PieceEvents.Jump> jumps, double smallestPercent) {}

    Events find() throws IOException {
        List<LocalModel.Part> parts = model.parts();
        PartEvents[] found = new PartEvents[parts.size()];
        try {
            IntStream.range(0, found.length).parallel().forEach(i -> found[i] = of(parts.get(i)));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        List<Kink> kinks = new ArrayList<>();
        List<PieceEvents.Jump> jumps = new ArrayList<>();
        double smallest = PieceEvents.LEAST_PERCENT;
        for (PartEvents part : found) {
            kinks.addAll(part.kinks);
            jumps.addAll(part.jumps);
            smallest = Math.max(smallest, part.smallestPercent);
        }
        kinks.sort(Comparator.comparingDouble(Kink::startSeconds));
        return new Events(kinks, jumps, smallest);
    }

    private PartEvents of(LocalModel.Part part) {
        try {
            PieceEvents events = new PieceEvents(model, model.look(part));
            List<Kink> kinks = events.find().stream()
                    .filter(k -> k.startSeconds() >= part.core().fromSeconds()
                            && k.startSeconds() < part.core().toSeconds())
                    .toList();
            List<PieceEvents.Jump> jumps = events.jumps().stream()
                    .filter(j -> j.atSeconds() >= part.core().fromSeconds()
                            && j.atSeconds() < part.core().toSeconds())
                    .toList();
            return new PartEvents(kinks, jumps, events.smallestPercent(), events.piece().series().size());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
