package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class TwoMeansTest {
    private static final double KNOWN = Double.POSITIVE_INFINITY;

    /**
     * Worked by hand: errors 3 and 4 make 5; degrees 625 / (81 / 9 + 256 / 16) = 25; t = (17 - 7) / 5 = 2. The chance beyond 2.060 with
     * 25 degrees is 5 % (printed tables, from memory), so the half width is 10.30.
     */
    @Test
    void handWorked() {
        TwoMeans two = TwoMeans.of(new MeanEstimate(17, 3, 9), new MeanEstimate(7, 4, 16));
        assertEquals(5, two.standardError(), 1e-14);
        assertEquals(25, two.degrees(), 1e-12);
        assertEquals(2, two.statistic(), 1e-14);
        assertEquals(10 - 10.30, two.interval(0.95).low(), 0.003);
        assertEquals(10 + 10.30, two.interval(0.95).high(), 0.003);
    }

    /** Errors that are known leave the normal distribution: 5 % beyond 1.959964 (printed tables, from memory). */
    @Test
    void knownErrors() {
        TwoMeans two = TwoMeans.of(new MeanEstimate(1.959964, 0.6, KNOWN), new MeanEstimate(0, 0.8, KNOWN));
        assertEquals(KNOWN, two.degrees());
        assertEquals(0.05, two.pValue(), 1e-7);
        TwoMeans half = TwoMeans.of(new MeanEstimate(1, 0, KNOWN), new MeanEstimate(0, 2, 7));
        assertEquals(7, half.degrees(), 1e-12, "the side without error brings nothing in");
    }

    @Test
    void withoutErrors() {
        MeanEstimate sure = new MeanEstimate(3, 0, 5);
        assertEquals(1, TwoMeans.of(sure, sure).pValue());
        assertEquals(0, TwoMeans.of(sure, new MeanEstimate(2, 0, 5)).pValue());
        assertEquals(10, TwoMeans.of(sure, sure).degrees());
        assertEquals(0, MeanEstimate.ofValues(new double[] {4, 4}).standardError());
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 200);
    }

    /** Swapped sides change only signs; degrees lie between the smaller and the sum; the interval ends at 0 where p is 1 - c. */
    @ParameterizedTest
    @MethodSource("seeds")
    void laws(int seed) {
        Random random = new Random(seed);
        MeanEstimate a = any(random);
        MeanEstimate b = any(random);
        TwoMeans two = TwoMeans.of(a, b);
        TwoMeans swapped = TwoMeans.of(b, a);
        assertEquals(two.pValue(), swapped.pValue(), 1e-13, "seed " + seed);
        assertEquals(two.interval(0.9).low(), -swapped.interval(0.9).high(), 1e-12, "seed " + seed);
        double smaller = Math.min(a.degrees(), b.degrees());
        assertTrue(two.degrees() >= smaller * (1 - 1e-12), "seed " + seed);
        assertTrue(two.degrees() <= (a.degrees() + b.degrees()) * (1 + 1e-12), "seed " + seed);
        ConfidenceInterval touching = two.interval(1 - two.pValue());
        double nearest = two.difference() > 0 ? touching.low() : touching.high();
        assertEquals(0, nearest, 1e-6 * Math.abs(two.difference()), "seed " + seed);
    }

    private static MeanEstimate any(Random random) {
        return new MeanEstimate(random.nextGaussian(), 0.2 + random.nextDouble(), 2 + 30 * random.nextDouble());
    }

    /**
     * Equal means, spreads 1 and 4, 20 and 8 values: p is below 0.05 in 5 % of the runs (4000, standard error 0.35 %; four of them
     * allowed). The figure is about 5 and not exactly so, as Welch's degrees are an approximation.
     */
    @Test
    void falseAlarmsKeepTheLevel() {
        Random random = new Random(11);
        int alarms = 0;
        for (int run = 0; run < 4000; run++) {
            MeanEstimate narrow = MeanEstimate.ofValues(normal(random, 20, 1));
            MeanEstimate wide = MeanEstimate.ofValues(normal(random, 8, 4));
            alarms += TwoMeans.of(narrow, wide).pValue() < 0.05 ? 1 : 0;
        }
        assertEquals(5, alarms / 40.0, 1.4, "seed 11");
    }

    private static double[] normal(Random random, int count, double deviation) {
        return random.doubles(count)
                .map(ignored -> deviation * random.nextGaussian())
                .toArray();
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new MeanEstimate(Double.NaN, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> new MeanEstimate(0, -1, 1));
        assertThrows(IllegalArgumentException.class, () -> new MeanEstimate(0, KNOWN, 1));
        assertThrows(IllegalArgumentException.class, () -> new MeanEstimate(0, 1, 0));
        assertThrows(IllegalArgumentException.class, () -> MeanEstimate.ofValues(new double[] {1}));
        assertThrows(IllegalArgumentException.class, () -> new TwoMeans(KNOWN, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> new TwoMeans(0, Double.NaN, 1));
        assertThrows(IllegalArgumentException.class, () -> new TwoMeans(0, 1, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new TwoMeans(0, 1, 1).interval(1));
        assertThrows(IllegalArgumentException.class, () -> new ConfidenceInterval(1, 0, 0.9));
        assertThrows(IllegalArgumentException.class, () -> new ConfidenceInterval(Double.NaN, 0, 0.9));
        assertFalse(new ConfidenceInterval(0, 1, 0.9).holds(1.1));
        assertTrue(new ConfidenceInterval(0, 1, 0.9).holds(1));
    }
}
