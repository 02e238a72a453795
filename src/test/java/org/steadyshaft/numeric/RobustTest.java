package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The running median against the plain form, and the edges of the rest. */
class RobustTest {
    /** Seeded rows of every kind: with many ties, with both zeros, steps, and windows wider than the row. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void runningMedianIsThePlainOne(long seed) {
        Random random = new Random(seed);
        for (int trial = 0; trial < 50; trial++) {
            double[] values = values(random);
            int halfWidth = random.nextInt(values.length + 4);
            double[] before = values.clone();
            double[] medians = Robust.runningMedian(values, halfWidth);
            String what = "seed " + seed + ", trial " + trial + ", half width " + halfWidth;
            assertArrayEquals(plainRunningMedian(values, halfWidth), medians, what);
            assertArrayEquals(before, values, "the input stays as it is, " + what);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {31, 32, 33, 34})
    void medianIsTheMiddleOfTheSortedValues(long seed) {
        Random random = new Random(seed);
        for (int trial = 0; trial < 200; trial++) {
            double[] values = values(random);
            assertEquals(plainMedian(values.clone()), Robust.median(values), "seed " + seed + ", trial " + trial);
        }
    }

    @Test
    void halfWidthZeroChangesNothing() {
        double[] values = {3, -1, 4, 1, -5};
        assertArrayEquals(values, Robust.runningMedian(values, 0));
    }

    @Test
    void edgesUseWhatThereIs() {
        assertArrayEquals(new double[] {1.5, 2, 2, 3, 3, 6}, Robust.runningMedian(new double[] {1, 2, 9, 2, 3, 9}, 1));
        assertArrayEquals(new double[] {2, 2, 2, 2}, Robust.runningMedian(new double[] {2, 1, 9, 2}, 2));
    }

    @Test
    void noValuesGiveNoMedians() {
        assertEquals(0, Robust.runningMedian(new double[0], 3).length);
        assertThrows(IllegalArgumentException.class, () -> Robust.median(new double[0]));
        assertThrows(IllegalArgumentException.class, () -> Robust.medianAbsoluteDeviation(new double[0]));
    }

    @Test
    void medianLeavesItsInputAlone() {
        double[] values = {5, 1, 4};
        assertEquals(4, Robust.median(values));
        assertEquals(1, Robust.medianAbsoluteDeviation(values));
        assertArrayEquals(new double[] {5, 1, 4}, values);
    }

    /** Up to just under half of the values may be anything. */
    @Test
    void outliersDoNotSpoilIt() {
        Random random = new Random(21);
        double[] values = random.doubles(10001).map(u -> 100 + u).toArray();
        double clean = Robust.median(values);
        for (int i = 0; i < 4000; i++) {
            values[i] = i % 2 == 0 ? 1e9 : -1e9;
        }
        assertEquals(clean, Robust.median(values), 0.02);
    }

    /** Of normal data sigma is the standard deviation; its own spread with 40000 values is 0.6 %. */
    @Test
    void sigmaOfNormalData() {
        Random random = new Random(22);
        double[] values = new double[40000];
        Arrays.setAll(values, i -> 7 + 2.5 * random.nextGaussian());
        assertEquals(2.5, Robust.sigma(values), 2.5 * 0.03);
    }

    private static double[] values(Random random) {
        int kinds = 1 + random.nextInt(6);
        boolean ties = random.nextBoolean();
        double[] values = new double[1 + random.nextInt(60)];
        for (int i = 0; i < values.length; i++) {
            double tied = (random.nextInt(kinds) - 1) * (random.nextBoolean() ? 1.0 : -1.0);
            values[i] = ties ? tied : random.nextGaussian() * 1e3;
        }
        return values;
    }

    private static double plainMedian(double[] values) {
        Arrays.sort(values);
        int middle = values.length / 2;
        return values.length % 2 == 1 ? values[middle] : 0.5 * (values[middle - 1] + values[middle]);
    }

    private static double[] plainRunningMedian(double[] values, int halfWidth) {
        double[] medians = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            int from = Math.max(0, i - halfWidth);
            int to = Math.min(values.length, i + halfWidth + 1);
            medians[i] = plainMedian(Arrays.copyOfRange(values, from, to));
        }
        return medians;
    }
}
