package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class HolmCorrectionTest {
    /**
     * Worked by hand: in rising order 0.005, 0.011, 0.02, 0.04, 0.13, times 5, 4, 3, 2, 1 makes 0.025, 0.044, 0.06, 0.08, 0.13.
     */
    @Test
    void handWorkedWithoutHolding() {
        double[] given = {0.04, 0.005, 0.13, 0.011, 0.02};
        assertArrayEquals(new double[] {0.08, 0.025, 0.13, 0.044, 0.06}, HolmCorrection.adjusted(given), 1e-15);
        assertArrayEquals(new double[] {0.04, 0.005, 0.13, 0.011, 0.02}, given, "the given ones are left alone");
    }

    /**
     * Worked by hand: in rising order 0.01, 0.03, 0.03, 0.04, times 4, 3, 2, 1 makes 0.04, 0.09, 0.06, 0.04; the largest so far is
     * kept: 0.04, 0.09, 0.09, 0.09. And 0.6, 0.7 makes 1.2, 0.7: both 1.
     */
    @Test
    void handWorkedWithHolding() {
        double[] found = HolmCorrection.adjusted(new double[] {0.03, 0.04, 0.01, 0.03});
        assertArrayEquals(new double[] {0.09, 0.09, 0.04, 0.09}, found, 1e-15);
        assertArrayEquals(new double[] {1, 1}, HolmCorrection.adjusted(new double[] {0.7, 0.6}));
    }

    @Test
    void oneTestIsLeftAloneAndNoneGivesNone() {
        assertArrayEquals(new double[] {0.03}, HolmCorrection.adjusted(new double[] {0.03}));
        assertEquals(0, HolmCorrection.adjusted(new double[0]).length);
    }

    @Test
    void whatIsNoChanceIsRefused() {
        for (double bad : new double[] {-1e-9, 1.000001, Double.NaN}) {
            assertThrows(
                    IllegalArgumentException.class, () -> HolmCorrection.adjusted(new double[] {0.5, bad}), "" + bad);
        }
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 200);
    }

    /** Never below the raw one, never above Bonferroni's m p, in the same order, and the smallest is Bonferroni's. */
    @ParameterizedTest
    @MethodSource("seeds")
    void laws(int seed) {
        Random random = new Random(seed);
        double[] raw = random.doubles(1 + random.nextInt(12)).map(p -> p * p).toArray();
        double[] adjusted = HolmCorrection.adjusted(raw);
        int smallest = 0;
        for (int i = 0; i < raw.length; i++) {
            smallest = raw[i] < raw[smallest] ? i : smallest;
            assertTrue(adjusted[i] >= raw[i], "seed " + seed);
            assertTrue(adjusted[i] <= Math.min(1, raw.length * raw[i]), "seed " + seed);
            for (int other = 0; other < raw.length; other++) {
                assertTrue(raw[i] > raw[other] || adjusted[i] <= adjusted[other], "seed " + seed);
            }
        }
        assertEquals(Math.min(1, raw.length * raw[smallest]), adjusted[smallest], 1e-15, "seed " + seed);
    }

    /**
     * Ten true hypotheses with independent even p-values: some adjusted p-value at most 0.05 in 1 - 0.995^10 = 4.89 % of the runs (the
     * smallest p at most 0.05 / 10). 20,000 runs, standard error 0.15 %; four of them allowed. Uncorrected it would be 40 %.
     */
    @Test
    void falseAlarmsKeepTheLevel() {
        Random random = new Random(7);
        int alarms = 0;
        for (int run = 0; run < 20_000; run++) {
            double[] adjusted = HolmCorrection.adjusted(random.doubles(10).toArray());
            for (double p : adjusted) {
                if (p <= 0.05) {
                    alarms++;
                    break;
                }
            }
        }
        assertEquals(100 * (1 - Math.pow(0.995, 10)), alarms / 200.0, 0.6, "seed 7");
    }
}
