package org.steadyshaft.blip;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.steadyshaft.analysis.KeptCycles;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.RoughAngle;

/**
 * Recordings without a blip that are hard to leave at that, and spliced ones: measured by hand over many seeds (main), and in a short form
 * by the tests. Prints invented blips and splices that were not told.
 */
final class HardControls {
    static final double MAINS_HZ = 50;
    private static final double RATE_HZ = 16_000;
    private static final int[] SPLICES = {1, 3, 10, 40, 160, 512, 1024, 2500, 5000, -64, -512};

    private HardControls() {}

    /** Arguments: first seed, number of seeds, seconds each. */
    public static void main(String[] arguments) throws IOException {
        long first = Long.parseLong(arguments[0]);
        int count = Integer.parseInt(arguments[1]);
        double seconds = Double.parseDouble(arguments[2]);
        int invented = 0;
        double minutes = 0;
        int told = 0;
        int spliced = 0;
        int inventedBySplice = 0;
        for (long seed = first; seed < first + count; seed++) {
            for (Kind kind : Kind.values()) {
                List<Kink> kinks = events(control(kind, seed, seconds)).kinks();
                minutes += seconds / 60;
                invented += kinks.size();
                if (!kinks.isEmpty()) {
                    System.out.println(kind + " seed " + seed + ": " + kinks);
                }
            }
            Splices splices = splices(seed);
            ShaftEvents events = events(splices.source);
            int found = splices.told(events);
            told += found;
            spliced += splices.seconds.size();
            inventedBySplice += events.kinks().size();
            if (found < splices.seconds.size() || !events.kinks().isEmpty()) {
                System.out.printf(
                        Locale.ROOT,
                        "splices seed %d, tacho %.0f Hz: %d of %d told, not %s, blips %s%n",
                        seed,
                        splices.cycleHz,
                        found,
                        splices.seconds.size(),
                        splices.untold(events),
                        events.kinks());
            }
        }
        System.out.printf(
                Locale.ROOT,
                "%d blips invented in %.1f minutes of controls; %d of %d splices told, %d blips made of them%n",
                invented,
                minutes,
                told,
                spliced,
                inventedBySplice);
    }

    /** What a control suffers from. */
    enum Kind {
        WANDER,
        BRUSHES,
        CRACKLE,
        HUM_STEPS,
        LEVEL_STEPS,
        NEEDLES
    }

    static SampleSource control(Kind kind, long seed, double seconds) {
        Random random = new Random(1000 * seed + kind.ordinal());
        double rpm = 400 + 1400 * random.nextDouble();
        double wander = kind == Kind.WANDER ? 0.8 : 0.15;
        DrawnSpeed speed = MadeRecording.wandering(rpm, wander, random).line(100, 0.15, 1);
        MadeRecording clean = MadeRecording.of(speed, rpm, seconds, RATE_HZ, seed);
        return switch (kind) {
            case WANDER -> clean;
            case BRUSHES -> clean.withBrushBursts();
            case CRACKLE -> clean.withCrackle();
            case HUM_STEPS -> clean.withHumSteps(MAINS_HZ);
            case LEVEL_STEPS -> clean.withLevelSteps();
            case NEEDLES -> clean.withNeedles(MAINS_HZ);
        };
    }

    /** A spliced recording with the places. */
    record Splices(SampleSource source, List<Double> seconds, List<Integer> samples, double cycleHz) {
        int told(ShaftEvents events) {
            return seconds.size() - untold(events).size();
        }

        List<String> untold(ShaftEvents events) {
            List<String> missing = new ArrayList<>();
            for (int i = 0; i < seconds.size(); i++) {
                double at = seconds.get(i);
                boolean there = events.faults().stream()
                        .anyMatch(f ->
                                f.where().fromSeconds() < at + 0.1 && f.where().toSeconds() > at - 0.1);
                if (!there) {
                    double cycles = samples.get(i) * cycleHz / RATE_HZ;
                    missing.add(String.format(Locale.ROOT, "%d at %.2f s (%.3f cycles)", samples.get(i), at, cycles));
                }
            }
            return missing;
        }
    }

    static Splices splices(long seed) {
        Random random = new Random(77 * seed + 5);
        double cycleHz = 20 * Math.pow(20, random.nextDouble());
        double rpm = 60 * cycleHz / MadeRecording.POLES;
        double seconds = 2.0 * SPLICES.length + 4;
        MadeRecording made = MadeRecording.of(MadeRecording.wandering(rpm, 0.03, random), rpm, seconds, RATE_HZ, seed);
        List<Double> at = new ArrayList<>();
        List<Integer> samples = new ArrayList<>();
        for (int i = 0; i < SPLICES.length; i++) {
            double place = 2 + 2 * i + 0.3 * random.nextDouble();
            int n = SPLICES[(int) ((i + seed) % SPLICES.length)];
            made = made.spliced(place, n);
            at.add(place);
            samples.add(n);
        }
        return new Splices(made, at, samples, cycleHz);
    }

    static ShaftEvents events(SampleSource source) throws IOException {
        Optional<KeptCycles> kept = KeptCycles.of(source, MAINS_HZ);
        if (kept.isEmpty()) {
            return ShaftEvents.NONE;
        }
        RoughAngle rough = RoughAngle.of(kept.get().cycles(), new Tachometer(MadeRecording.POLES));
        Optional<LocalModel> model = LocalModel.learn(kept.get().waveform(), rough, MAINS_HZ);
        return model.isPresent() ? new EventFinder(model.get()).find() : ShaftEvents.NONE;
    }
}
