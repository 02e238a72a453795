package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The running median by ranks against the plain form: every window copied and sorted. */
class RankMedianTest {
    private static double[] plain(double[] values, int halfWidth) {
        double[] medians = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            double[] window = Arrays.copyOfRange(
                    values, Math.max(0, i - halfWidth), (int) Math.min(values.length, (long) i + halfWidth + 1));
            Arrays.sort(window);
            int middle = window.length / 2;
            medians[i] = window.length % 2 == 1 ? window[middle] : 0.5 * (window[middle - 1] + window[middle]);
        }
        return medians;
    }

    private static void same(int count, int halfWidth, IntToDoubleFunction value) {
        double[] values = new double[count];
        Arrays.setAll(values, value);
        assertArrayEquals(plain(values, halfWidth), new RankMedian(values.clone(), halfWidth).medians());
        assertArrayEquals(plain(values, halfWidth), Robust.runningMedian(values, halfWidth));
    }

    @ParameterizedTest
    @CsvSource({"1,1", "2,1", "3,16", "64,1", "65,3", "500,16", "500,499", "500,2000", "3000,40", "6000,300"})
    void noise(int count, int halfWidth) {
        Random random = new Random(count + halfWidth);
        same(count, halfWidth, i -> random.nextGaussian());
    }

    /** Values that differ by less than the bits which the sort gives up for the places. */
    @ParameterizedTest
    @ValueSource(ints = {2, 17, 120})
    void nearlyEqual(int halfWidth) {
        Random random = new Random(halfWidth);
        same(2500, halfWidth, i -> 1500 + 1e-12 * random.nextInt(40));
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 17, 120})
    void manyEqual(int halfWidth) {
        Random random = new Random(halfWidth);
        same(2500, halfWidth, i -> random.nextInt(3) - 1);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 17, 120})
    void risingFallingAndOneLevel(int halfWidth) {
        same(1500, halfWidth, i -> i);
        same(1500, halfWidth, i -> -i);
        same(1500, halfWidth, i -> 7);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 20})
    void nothing(int halfWidth) {
        assertEquals(0, new RankMedian(new double[0], halfWidth).medians().length);
    }
}
