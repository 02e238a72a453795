package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.ripple.Hunting;

/**
 * How often the 95 % limits of each measure hold the true value: 93 to 98 % are wanted, and the count may scatter as a binomial one does
 * (one false alarm in a thousand on each side).
 */
class IntervalTruthTest {
    private static final int SEEDS = Thorough.count(150, 400);
    private static final double LEAST = 0.93;
    private static final double MOST = 0.98;
    private static final double FALSE_ALARMS = 1e-3;

    /** Values about which logarithms of a second's mean square scatter by 0.4: their mean lies exp(0.04) times higher. */
    private static final double RMS_BIAS = Math.exp(0.04);

    private static final double SWING_BIAS = 3 * Math.exp(0.02);

    private static void covers(String title, Function<Random, Optional<Estimate>> estimate, double truth) {
        int inside = 0;
        for (long seed = 0; seed < SEEDS; seed++) {
            Estimate e = estimate.apply(MadeRuns.random(seed)).orElseThrow();
            inside += e.low95() <= truth && truth <= e.high95() ? 1 : 0;
        }
        System.out.printf("limits of %s hold the truth in %.1f %%%n", title, 100.0 * inside / SEEDS);
        assertTrue(chanceOfMore(inside, LEAST) > FALSE_ALARMS, title + ": " + inside + " of " + SEEDS);
        assertTrue(chanceOfFewer(inside, MOST) > FALSE_ALARMS, title + ": " + inside + " of " + SEEDS);
    }

    /** Chance of so few or fewer, were each inside with a chance. */
    private static double chanceOfMore(int inside, double chance) {
        return BinomialDistribution.of(SEEDS, chance).cumulativeProbability(inside);
    }

    private static double chanceOfFewer(int inside, double chance) {
        return BinomialDistribution.of(SEEDS, chance).survivalProbability(inside - 1);
    }

    private static Map<Measure, Estimate> measured(MadeRuns made, int runs, int seconds, Random random) {
        List<Run> all = new ArrayList<>();
        for (int i = 0; i < runs; i++) {
            all.add(made.run("r" + i, MadeRuns.label("rc", "mid", "none"), 900, seconds, random));
        }
        return new GroupMeter(all).measure().estimates();
    }

    @ParameterizedTest(name = "{0} runs of {1} s, likeness {2}")
    @CsvSource({"1, 60, 0", "1, 120, 0.3", "3, 60, 0.3"})
    void ofSeconds(int runs, int seconds, double likeness) {
        MadeRuns made = new MadeRuns(0.5, 0.1, 6, likeness, 0, 0);
        String title = " of " + runs + " runs of " + seconds + " s, likeness " + likeness;
        covers("ripple" + title, r -> of(measured(made, runs, seconds, r), Measure.RIPPLE), 0.5 * RMS_BIAS);
        covers("swing" + title, r -> of(measured(made, runs, seconds, r), Measure.SWING), 0.5 * SWING_BIAS);
        covers("wander" + title, r -> of(measured(made, runs, seconds, r), Measure.WANDER), 0.1);
        covers("blips" + title, r -> of(measured(made, runs, seconds, r), Measure.BLIPS), 6);
    }

    /** Parts of a run that scatter about their truth: amplitudes by their own error, steps by logarithms, speeds from run to run. */
    private static Run scattered(String load, double rpm, double lineSpread, Random random) {
        Run made = new MadeRuns(0.2, 0.05, 0, 0.3, 0, 0).run("r", MadeRuns.label("loop", "mid", load), rpm, 6, random);
        double line = 0.5 + lineSpread * random.nextGaussian() + 0.02 * random.nextGaussian();
        double hunting = 2 + lineSpread * random.nextGaussian() + 0.05 * random.nextGaussian();
        List<Double> steps = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            steps.add(Math.exp(0.3 * random.nextGaussian()));
        }
        return new Run(
                made.name(),
                made.label(),
                made.trust(),
                rpm * (1 + 0.005 * random.nextGaussian()),
                0.0005 * rpm,
                made.blocks(),
                Optional.of(new Run.RippleLines(
                        0.02, 325, 0.2, 0.01, Run.MainsLine.of(line, 0.04), Run.MainsLine.of(0.01, 0.01))),
                made.lines(),
                made.jumps(),
                Optional.of(new Run.Hunts(1, hunting, 0.1, Hunting.Trend.SUSTAINED)),
                Optional.of(true),
                steps,
                made.trace(),
                made.spectrum());
    }

    private static List<Run> scattered(String load, double rpm, int count, double lineSpread, Random random) {
        List<Run> runs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            runs.add(scattered(load, rpm, lineSpread, random));
        }
        return runs;
    }

    @ParameterizedTest(name = "{0} runs that differ by {1} %")
    @CsvSource({"1, 0", "3, 0", "3, 0.2", "5, 0.2"})
    void ofRuns(int count, double spread) {
        String title = " of " + count + " runs that differ by " + spread + " %";
        covers("twice mains" + title, r -> of(told(count, spread, r), Measure.TWICE_MAINS), 0.5);
        covers("hunting" + title, r -> of(told(count, spread, r), Measure.HUNTING), 2);
        covers("settling" + title, r -> of(told(count, spread, r), Measure.SETTLING), 1);
    }

    private static Map<Measure, Estimate> told(int count, double spread, Random random) {
        return new GroupMeter(scattered("none", 900, count, spread, random))
                .measure()
                .estimates();
    }

    /** True sag 25 %: 1000 rpm light and 800 loaded. */
    @ParameterizedTest(name = "{0} runs each")
    @ValueSource(ints = {3, 5})
    void ofSag(int count) {
        covers(
                "sag of " + count + " runs each",
                r -> {
                    List<Run> runs = new ArrayList<>(scattered("none", 1000, count, 0, r));
                    runs.addAll(scattered("clay", 800, count, 0, r));
                    Sag sag = SagMeter.sags(runs).get(0);
                    return Optional.of(new Estimate(
                            Measure.SAG,
                            sag.regulation().percent(),
                            sag.low95(),
                            sag.high95(),
                            sag.estimate(),
                            0,
                            Optional.empty(),
                            0,
                            Optional.empty()));
                },
                25);
    }

    private static Optional<Estimate> of(Map<Measure, Estimate> estimates, Measure measure) {
        return Optional.ofNullable(estimates.get(measure));
    }
}
