package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.steadyshaft.Thorough;
import org.steadyshaft.analysis.Analysed;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** Drawn captures through the whole analysis: equal ripple is seldom called different, doubled ripple is found. */
class MadeCapturesTruthTest {
    private static final int PAIRS = Thorough.count(2, 20);

    /** Equal circuits recorded unlike: 300 pairs where time is no matter, few in every build. */
    private static final int UNLIKE = Thorough.count(2, 300);

    private static final double FALSE_ALARMS = 1e-3;

    /** A swing with a slow swell and a wander of small pushes, so that seconds differ as they do on a real machine. */
    private static Run run(String circuit, double ripplePercent, Random random) {
        return run(circuit, ripplePercent, random, Settings.clean(4000, 30).withNoise(0.002, random.nextLong()), 30);
    }

    private static Run run(String circuit, double ripplePercent, Random random, Settings settings, double seconds) {
        DrawnSpeed speed = DrawnSpeed.level(895 + 10 * random.nextDouble())
                .line(14.3 + 0.4 * random.nextDouble(), ripplePercent, 6 * random.nextDouble())
                .line(23.1 + 0.4 * random.nextDouble(), 0.5 * ripplePercent, 6 * random.nextDouble());
        for (int i = 0; i < seconds; i++) {
            speed = speed.blip(i + random.nextDouble(), 0.4, 0.2 * ripplePercent * random.nextGaussian(), 0.8);
        }
        Outcome.Analysed analysed = Analysed.of(new DrawnTacho(circuit, speed, settings));
        Outcome.Analysed labelled = new Outcome.Analysed(
                analysed.source(),
                MadeRuns.label(circuit, "mid", "none"),
                analysed.settings(),
                analysed.findings(),
                analysed.rotation(),
                analysed.extract());
        return new RunMeter().measure(circuit, labelled).orElseThrow();
    }

    private static List<Difference> differences(double first, double second, long seed) {
        Random random = MadeRuns.random(seed);
        List<Run> runs = List.of(run("rc", first, random), run("pulses", second, random));
        List<Difference> differences =
                new Comparer(LimitsReader.startingPoints(), false).compare(runs).differences();
        assertTrue(differences.stream().anyMatch(d -> d.measure() == Measure.RIPPLE), "seed " + seed);
        return differences;
    }

    @Test
    void equal_and_doubled_ripple() {
        int wrong = 0;
        int found = 0;
        for (long seed = 0; seed < PAIRS; seed++) {
            wrong += differences(0.4, 0.4, seed).stream()
                            .anyMatch(d -> d.better().isPresent())
                    ? 1
                    : 0;
            found += differences(0.8, 0.4, 1000 + seed).stream()
                            .anyMatch(d -> d.measure() == Measure.RIPPLE
                                    && d.better()
                                            .filter(b -> b.circuit().equals("pulses"))
                                            .isPresent())
                    ? 1
                    : 0;
        }
        System.out.println("whole program, " + PAIRS + " pairs: " + wrong + " wrong, " + found + " found");
        assertTrue(wrong <= 0.05 * PAIRS, wrong + " of " + PAIRS + " equal pairs were called different");
        assertTrue(found >= 0.9 * PAIRS, found + " of " + PAIRS + " doubled ripples were found");
    }

    /** Another rate, another length, ten times the noise: the same ripple all the same. */
    @Test
    void equal_ripple_recorded_unlike() {
        int wrong = 0;
        for (long seed = 0; seed < UNLIKE; seed++) {
            Random random = MadeRuns.random(5000 + seed);
            double shorter = 20 + 10 * random.nextDouble();
            Run quiet = run("rc", 0.4, random, Settings.clean(4000, 40).withNoise(0.002, random.nextLong()), 40);
            Run noisy = run(
                    "pulses", 0.4, random, Settings.clean(6000, shorter).withNoise(0.02, random.nextLong()), shorter);
            List<Difference> differences = new Comparer(LimitsReader.startingPoints(), false)
                    .compare(List.of(quiet, noisy))
                    .differences();
            wrong += differences.stream().anyMatch(d -> d.better().isPresent()) ? 1 : 0;
        }
        System.out.println("whole program, recorded unlike: " + wrong + " of " + UNLIKE + " called different");
        double chance = BinomialDistribution.of(UNLIKE, 0.05).survivalProbability(wrong - 1);
        assertTrue(chance > FALSE_ALARMS, wrong + " of " + UNLIKE);
    }
}
