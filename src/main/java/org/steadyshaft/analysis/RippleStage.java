package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steadyshaft.ripple.DriveHints;
import org.steadyshaft.ripple.RippleReader;
import org.steadyshaft.ripple.RippleReading;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.speed.PoleCountCheck;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.voltage.CalmCycles;
import org.steadyshaft.voltage.LearntTurn;
import org.steadyshaft.voltage.MainsReading;
import org.steadyshaft.voltage.WaveformReader;
import org.steadyshaft.voltage.WaveformReading;
import org.steadyshaft.voltage.ZeroSpacing;

/**
 * Ripple and blips of a recording: the waveform's lines show where they are taken out of the cycles, so that blips stand clear; the blips
 * found are left out when the waveform is read for good.
 */
final class RippleStage {
    /** What stands so near to a blip is left out with it [s]. */
    private static final double BESIDE_SECONDS = 0.05;

    /**
     * Where jumps come faster than such tails fade, the speed is nowhere at a level of its own.
     */
    private static final double SLOW_TAIL_SECONDS = 10;

    private final Tachometer tachometer;
    private final double mainsHz;
    private final DriveHints hints;
    private final Optional<MainsReading.Why> noLines;
    private final List<LearntTurn> others;

    /**
     * @param noLines why fast swings cannot be read from the wave; empty where they can
     * @param others turns of the tacho as other recordings have them
     */
    RippleStage(
            Tachometer tachometer,
            double mainsHz,
            DriveHints hints,
            Optional<MainsReading.Why> noLines,
            List<LearntTurn> others) {
        this.others = others;
        this.noLines = noLines;
        this.tachometer = tachometer;
        this.mainsHz = mainsHz;
        this.hints = hints;
    }

    /** What came out; without steady running long enough the waveform was not read. */
    record Result(RippleReading ripple, Optional<WaveformReading> reading, OptionalInt likelierPoles) {

        /** What other recordings of the tacho may learn from this; nothing where the pole count or the wave is doubted. */
        Optional<LearntTurn> learnt() {
            return likelierPoles.isPresent() ? Optional.empty() : reading.map(WaveformReading::learnt);
        }

        /** The pole pattern as the turn's voltage has it; else as the cycles have it. */
        Optional<PolePattern> pattern(Optional<PolePattern> ofCycles) {
            return ofCycles.map(pattern -> reading.flatMap(r -> ZeroSpacing.percent(r.turn(), r.polePairs()))
                    .filter(spacing ->
                            spacing.size() == pattern.pitchDeviationPercent().size())
                    .map(spacing -> new PolePattern(spacing, pattern.standardErrorPercent(), pattern.turns()))
                    .orElse(pattern));
        }
    }

    /**
     * @param events stretches of blips, which are left out of the waveform; the track is free of them
     * @param jumps when the blips begin [s]
     */
    Result run(
            KeptWaveform waveform,
            CycleTimes cycles,
            SpeedTrack track,
            List<Stretch> steady,
            List<Stretch> events,
            List<Double> jumps)
            throws IOException {
        WaveformReader reader = new WaveformReader(tachometer, mainsHz, others);
        List<Stretch> clear = without(steady, events);
        Optional<WaveformReading> reading = reader.read(waveform, cycles, clear);
        boolean amongTails = reading.isEmpty() && !events.isEmpty();
        if (amongTails) {
            clear = steady;
            reading = reader.read(waveform, cycles, clear);
        }
        OptionalInt likelier = new PoleCountCheck(tachometer.polePairs(), mainsHz)
                .likelier(
                        calm(cycles, reading),
                        cycles,
                        reading.map(RippleStage::tellsTheMains).orElse(false));
        if (likelier.isPresent()) {
            // what the magnet repeats is no ripple, whatever number was said
            reader = new WaveformReader(new Tachometer(likelier.getAsInt()), mainsHz);
            reading = reader.read(waveform, cycles, clear);
        }
        if (noLines.isPresent()) {
            boolean cutOff = noLines.get() == MainsReading.Why.CUT_OFF;
            reading = reading.map(r -> cutOff ? r.withoutLines() : r.withoutFastLines());
        }
        boolean slowTails = amongTails && events.stream().anyMatch(e -> e.durationSeconds() > SLOW_TAIL_SECONDS);
        RippleReading ripple = reading.map(r -> new RippleReader(tachometer, hints, slowTails ? jumps : List.of())
                        .read(r, track, steady, events))
                .orElse(RippleReading.NONE);
        return new Result(ripple, reading, likelier);
    }

    private static CycleTimes calm(CycleTimes cycles, Optional<WaveformReading> reading) {
        return reading.map(r -> CalmCycles.of(cycles, r.mainsMotion())).orElse(cycles);
    }

    /** Whether the lines of the mains were seen and could be told from the orders that the said number of poles gives. */
    private static boolean tellsTheMains(WaveformReading reading) {
        return reading.mainsSeen() && reading.mains().values().stream().allMatch(m -> m instanceof MainsReading.Told);
    }

    /** What is left of stretches when others are cut out. */
    private static List<Stretch> without(List<Stretch> steady, List<Stretch> cut) {
        List<Stretch> left = new ArrayList<>();
        for (Stretch stretch : steady) {
            double from = stretch.fromSeconds();
            for (Stretch out : cut) {
                double to = out.fromSeconds() - BESIDE_SECONDS;
                if (out.toSeconds() > from && to < stretch.toSeconds()) {
                    if (to > from) {
                        left.add(new Stretch(from, to));
                    }
                    from = Math.max(from, out.toSeconds() + BESIDE_SECONDS);
                }
            }
            if (stretch.toSeconds() > from) {
                left.add(new Stretch(from, stretch.toSeconds()));
            }
        }
        return left;
    }
}
