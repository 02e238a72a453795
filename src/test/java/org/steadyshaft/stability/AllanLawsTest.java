package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.PowerLawNoise;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Tachometer;

/**
 * The interval of the Allan deviation contains the true one as often as it says.
 *
 * <p>Truth: white noise of the speed with deviation s a cycle has the Allan variance s^2 / m at m cycles; white noise of the
 * crossing times with deviation s has 3 s^2 / (m T)^2 at a cycle length of T (both follow from the definition by adding
 * variances); a random walk of the speed by steps of s has s^2 (2 m^2 + 1) / (6 m), likewise.
 */
class AllanLawsTest {
    private static final Tachometer TACHO = new Tachometer(8);
    private static final int RUNS = 300;
    private static final double RPM = 600;
    private static final double CYCLE_SECONDS = 1 / TACHO.cycleHz(RPM);
    private static final double SHARE = 1e-3;

    /** A noise of the crossing times, and its Allan deviation at m cycles. */
    private enum Noise {
        WHITE_PHASE(m -> Math.sqrt(3) * SHARE / m) {
            @Override
            double[] crossings(Random random, int count) {
                double[] times = new double[count];
                for (int i = 0; i < count; i++) {
                    times[i] = CYCLE_SECONDS * (i + SHARE * random.nextGaussian());
                }
                return times;
            }
        },
        WHITE_FREQUENCY(m -> SHARE / Math.sqrt(m)) {
            @Override
            double[] crossings(Random random, int count) {
                double[] times = new double[count];
                for (int i = 1; i < count; i++) {
                    times[i] = times[i - 1] + CYCLE_SECONDS * (1 + SHARE * random.nextGaussian());
                }
                return times;
            }
        },
        RANDOM_WALK_FREQUENCY(m -> 0.01 * SHARE * Math.sqrt((2 * m * m + 1) / (6 * m))) {
            @Override
            double[] crossings(Random random, int count) {
                double[] times = new double[count];
                double walk = 0;
                for (int i = 1; i < count; i++) {
                    walk += 0.01 * SHARE * random.nextGaussian();
                    times[i] = times[i - 1] + CYCLE_SECONDS * (1 + walk);
                }
                return times;
            }
        };

        private final DoubleUnaryOperator deviation;

        Noise(DoubleUnaryOperator deviation) {
            this.deviation = deviation;
        }

        abstract double[] crossings(Random random, int count);

        List<StabilityPoint> measured(Random random, int count) {
            SpeedTrack track = MadeTrack.ofCrossings(TACHO, crossings(random, count));
            return new AllanMeter().measure(track, MadeTrack.whole(track));
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Noise.class,
            names = {"WHITE_PHASE", "WHITE_FREQUENCY"})
    void intervalContainsTheTruth(Noise noise) {
        for (int cycles : new int[] {300, 2000}) {
            long seed = 20240 + noise.ordinal();
            int[] inside = coverage(noise, cycles, new Random(seed));
            for (int octave = 0; octave < inside.length; octave++) {
                double percent = 100.0 * inside[octave] / RUNS;
                String where = noise + ", " + cycles + " cycles, octave " + octave + ", seed " + seed;
                assertTrue(percent >= 90 && percent <= 99, where + ": " + percent + " % inside; expected 90 to 99");
            }
        }
    }

    private static int[] coverage(Noise noise, int cycles, Random random) {
        int octaves = noise.measured(random, cycles + 1).size();
        assertTrue(octaves >= 7, "octaves: " + octaves);
        int[] inside = new int[octaves];
        for (int run = 0; run < RUNS; run++) {
            List<StabilityPoint> points = noise.measured(random, cycles + 1);
            for (int octave = 0; octave < octaves; octave++) {
                StabilityPoint point = points.get(octave);
                double truth = noise.deviation.applyAsDouble(1 << octave);
                inside[octave] += point.low95() <= truth && truth <= point.high95() ? 1 : 0;
            }
        }
        return inside;
    }

    /** A random walk of the speed: never fewer than the white kinds may have. */
    @ParameterizedTest
    @ValueSource(longs = {31, 32})
    void intervalContainsTheTruthOfARandomWalk(long seed) {
        int[] inside = coverage(Noise.RANDOM_WALK_FREQUENCY, 2000, new Random(seed));
        for (int octave = 0; octave < inside.length; octave++) {
            double percent = 100.0 * inside[octave] / RUNS;
            assertTrue(percent >= 90, "octave " + octave + ", seed " + seed + ": " + percent + " % inside");
        }
    }

    /**
     * The degrees of freedom of SP 1065 against their definition, 2 (mean variance)^2 / variance of the variance, over 2000 runs
     * of 300 cycles: within 25 % (the formulas are approximate, the estimate is good to about 5 %).
     */
    @ParameterizedTest
    @EnumSource(Noise.class)
    void degreesOfFreedomAreThoseOfTheSpread(Noise noise) {
        Random random = new Random(77);
        List<Moments> variances = new ArrayList<>();
        for (int run = 0; run < 2000; run++) {
            List<StabilityPoint> points = noise.measured(random, 301);
            for (int octave = 0; octave < points.size(); octave++) {
                if (run == 0) {
                    variances.add(new Moments());
                }
                double deviation = points.get(octave).deviation();
                variances.get(octave).add(deviation * deviation);
            }
        }
        assertTrue(variances.size() >= 7, "octaves");
        for (int octave = 0; octave < variances.size(); octave++) {
            Moments moments = variances.get(octave);
            double seen = 2 * Math.pow(moments.mean() / moments.deviation(), 2);
            double formula = PowerLawNoise.valueOf(noise.name()).degreesOfFreedom(301, 1 << octave);
            assertEquals(seen, formula, 0.25 * seen, noise + ", octave " + octave + ", seed 77");
        }
    }
}
