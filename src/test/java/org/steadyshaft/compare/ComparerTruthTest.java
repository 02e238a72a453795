package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.LongFunction;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.blip.BlipCause;

/**
 * How often circuits that behave alike are called different, and how often a real difference is found. A comparison counts as
 * wrong when any of its measures is decided: the chance is that of the whole family. A real difference is a ripple twice as large
 * after 60 s, far beyond what an hour of recording would need.
 */
class ComparerTruthTest {
    private static final int COMPARISONS = Thorough.count(60, 200);
    private static final double MOST_WRONG = 0.05;

    /** Equal circuits recorded unlike: so many pairs, and a share that their count may belong to. */
    private static final int UNLIKE = Thorough.count(100, 300);

    /** A count that the wanted share gives so seldom fails a test. */
    private static final double FALSE_ALARMS = 1e-3;

    private static final double FEWEST_FOUND = 0.9;

    private static Comparison compare(List<Run> runs) {
        return new Comparer(LimitsReader.startingPoints(), false).compare(runs);
    }

    private static List<Run> runs(MadeRuns made, String circuit, String load, double rpm, int count, Seconds seconds) {
        CaptureLabel label = MadeRuns.label(circuit, "mid", load);
        List<Run> runs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            runs.add(made.run(circuit + load + i, label, rpm, seconds.next(), seconds.random()));
        }
        return runs;
    }

    /** Lengths of runs, and the chance that everything of a comparison comes from. */
    private record Seconds(int least, int most, Random random) {
        int next() {
            return least + random.nextInt(most - least + 1);
        }
    }

    /** So many decided would be no rarity if the true share were the most that is allowed. */
    private static void assertSeldom(double share) {
        int decided = (int) Math.rint(share * COMPARISONS);
        double chance = BinomialDistribution.of(COMPARISONS, MOST_WRONG).survivalProbability(decided - 1);
        assertTrue(chance > FALSE_ALARMS, "share " + share);
    }

    /** So few found would be no rarity if the true share were the least that is asked for. */
    private static void assertOften(double share) {
        int found = (int) Math.rint(share * COMPARISONS);
        double chance = BinomialDistribution.of(COMPARISONS, FEWEST_FOUND).cumulativeProbability(found);
        assertTrue(chance > FALSE_ALARMS, "share " + share);
    }

    /** Share of comparisons with a decided difference; says what was decided wrongly, with the seed. */
    private static double decided(String title, LongFunction<List<Run>> batch) {
        int decided = 0;
        List<String> first = new ArrayList<>();
        for (long seed = 0; seed < COMPARISONS; seed++) {
            List<Difference> differences = compare(batch.apply(seed)).differences();
            assertTrue(differences.size() >= 4, "nothing was tested with seed " + seed);
            List<Difference> different =
                    differences.stream().filter(d -> d.better().isPresent()).toList();
            if (!different.isEmpty()) {
                decided++;
                first.add("seed " + seed + ": " + different.get(0).measure() + " p "
                        + different.get(0).outcome().orElseThrow().adjustedP());
            }
        }
        double share = (double) decided / COMPARISONS;
        System.out.println(title + ": " + share + " decided; " + first.subList(0, Math.min(8, first.size())));
        return share;
    }

    @ParameterizedTest(name = "{0} to {1} s, likeness {2}")
    @CsvSource({"20, 120, 0", "20, 120, 0.3", "20, 120, 0.6", "60, 120, 0.8"})
    void equal_circuits_of_one_run_each_are_seldom_called_different(int least, int most, double likeness) {
        double share = decided("equal, one run of " + least + " to " + most + " s, likeness " + likeness, seed -> {
            Seconds seconds = new Seconds(least, most, MadeRuns.random(seed));
            MadeRuns made = MadeRuns.alike(0.5, likeness);
            List<Run> runs = runs(made, "rc", "none", 900, 1, seconds);
            runs.addAll(runs(made, "pulses", "none", 900, 1, seconds));
            return runs;
        });
        assertSeldom(share);
    }

    /**
     * One quiet and long, the other noisy and short, at speeds a little apart: the noisy one shows only blips from 1.2 % on, the quiet one
     * from 0.2 %; most are smaller than 1 %.
     */
    @Test
    void equal_circuits_recorded_unlike_are_seldom_called_different() {
        int decided = 0;
        for (long seed = 0; seed < UNLIKE; seed++) {
            Random random = MadeRuns.random(seed);
            MadeRuns made = new MadeRuns(0.5, 0.1, 0, 0.4, 0, 0);
            Run quiet = made.run("a", MadeRuns.label("rc", "mid", "none"), 900, 150, random);
            Run noisy = made.run("b", MadeRuns.label("pulses", "mid", ""), 930, 40, random);
            List<Run> runs = List.of(withBlips(quiet, 0.2, random), withBlips(noisy, 1.2, random));
            decided += compare(runs).differences().stream()
                            .anyMatch(d -> d.better().isPresent())
                    ? 1
                    : 0;
        }
        double chance = BinomialDistribution.of(UNLIKE, MOST_WRONG).survivalProbability(decided - 1);
        System.out.println("equal, recorded unlike: " + decided + " of " + UNLIKE + " decided");
        assertTrue(chance > FALSE_ALARMS, decided + " of " + UNLIKE);
    }

    /** Twelve blips a minute by chance, sizes from 0.2 % on by an exponential law of 0.6 %; a recording shows them as far as its noise lets it. */
    private static Run withBlips(Run run, double smallest, Random random) {
        List<Run.Jump> jumps = new ArrayList<>();
        double minutes = run.jumps().minutes();
        for (double at = -Math.log(1 - random.nextDouble()) / 12;
                at < minutes;
                at -= Math.log(1 - random.nextDouble()) / 12) {
            double size = 0.2 - 0.6 * Math.log(1 - random.nextDouble());
            double read = size + smallest / 5.5 * random.nextGaussian();
            if (read > smallest) {
                jumps.add(new Run.Jump(read, BlipCause.EXTRA_CONDUCTION));
            }
        }
        return new Run(
                run.name(),
                run.label(),
                run.trust(),
                run.meanRpm(),
                run.dataRpm(),
                run.blocks(),
                run.ripple(),
                run.lines(),
                new Run.Jumps(jumps, minutes, smallest),
                run.hunting(),
                run.loop(),
                run.settlingSeconds(),
                run.trace(),
                run.spectrum());
    }

    @ParameterizedTest(name = "{0} runs that differ by {1}")
    @CsvSource({"2, 0", "2, 0.15", "3, 0", "3, 0.1", "3, 0.3", "5, 0.3", "2, 0.3"})
    void equal_circuits_of_several_runs_that_differ_are_seldom_called_different(int count, double spread) {
        double share = decided("equal, " + count + " runs that differ by " + spread, seed -> {
            Seconds seconds = new Seconds(20, 120, MadeRuns.random(seed));
            MadeRuns made = new MadeRuns(0.5, 0.1, 3, 0.5, spread, 0);
            List<Run> runs = runs(made, "rc", "none", 900, count, seconds);
            runs.addAll(runs(made, "pulses", "none", 900, count, seconds));
            return runs;
        });
        assertSeldom(share);
    }

    /** Light and loaded runs, so that the sag is compared too; speeds differ from run to run by half a per cent. */
    @ParameterizedTest(name = "{0} light and {0} loaded runs")
    @CsvSource({"3", "5"})
    void equal_sags_are_seldom_called_different(int count) {
        double share = decided("equal sags, " + count + " runs", seed -> {
            Seconds seconds = new Seconds(20, 60, MadeRuns.random(seed));
            MadeRuns made = new MadeRuns(0.5, 0.1, 3, 0.3, 0.1, 0.5);
            List<Run> runs = new ArrayList<>();
            for (String circuit : List.of("rc", "pulses")) {
                runs.addAll(runs(made, circuit, "none", 900, count, seconds));
                runs.addAll(runs(made, circuit, "2 kg clay", 860, count, seconds));
            }
            Comparison comparison = compare(runs);
            assertEquals(2, comparison.sags().size());
            assertTrue(comparison.differences().stream().anyMatch(d -> d.measure() == Measure.SAG));
            return runs;
        });
        assertSeldom(share);
    }

    @ParameterizedTest(name = "{0} runs, spread {1}")
    @CsvSource({"1, 0", "5, 0.1"})
    void a_ripple_twice_as_large_is_found_in_a_minute(int count, double spread) {
        int found = 0;
        for (long seed = 0; seed < COMPARISONS; seed++) {
            Seconds seconds = new Seconds(60, 60, MadeRuns.random(seed));
            List<Run> runs = runs(new MadeRuns(0.8, 0.1, 3, 0.5, spread, 0), "rc", "none", 900, count, seconds);
            runs.addAll(runs(new MadeRuns(0.4, 0.1, 3, 0.5, spread, 0), "pulses", "none", 900, count, seconds));
            boolean better = compare(runs).differences().stream()
                    .filter(d -> d.measure() == Measure.RIPPLE)
                    .anyMatch(d ->
                            d.better().filter(b -> b.circuit().equals("pulses")).isPresent());
            found += better ? 1 : 0;
        }
        double share = (double) found / COMPARISONS;
        System.out.println("twice the ripple, " + count + " runs of 60 s: found " + share);
        assertOften(share);
    }

    /** Four times the rate of blips, in three minutes of each. */
    @Test
    void four_times_the_blips_are_found() {
        int found = 0;
        for (long seed = 0; seed < COMPARISONS; seed++) {
            Seconds seconds = new Seconds(180, 180, MadeRuns.random(seed));
            List<Run> runs = runs(new MadeRuns(0.5, 0.1, 12, 0.5, 0, 0), "rc", "none", 900, 1, seconds);
            runs.addAll(runs(new MadeRuns(0.5, 0.1, 3, 0.5, 0, 0), "pulses", "none", 900, 1, seconds));
            boolean better = compare(runs).differences().stream()
                    .filter(d -> d.measure() == Measure.BLIPS)
                    .anyMatch(d ->
                            d.better().filter(b -> b.circuit().equals("pulses")).isPresent());
            found += better ? 1 : 0;
        }
        double share = (double) found / COMPARISONS;
        System.out.println("four times the blips in 180 s: found " + share);
        assertOften(share);
    }
}
