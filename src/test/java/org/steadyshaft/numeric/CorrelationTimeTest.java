package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CorrelationTimeTest {
    /**
     * Worked by hand: 0, 0, 0, 0, 1, 1, 1, 1 has r(1) = 5/8, r(2) = 2/8, r(3) = -1/8, r(4) = -4/8, r(5) = -3/8, r(6) = -2/8, so
     * the sums up to each lag are 18, 22, 20, 12, 6, 2 eighths: only at lag 5 (6/8 times 5 below 5) is the lag five times the sum.
     */
    @Test
    void handWorked() {
        CorrelationTime time = CorrelationTime.of(new double[] {0, 0, 0, 0, 1, 1, 1, 1});
        assertEquals(5, time.windowSamples());
        assertEquals(1, time.timeSamples(), "6/8 is raised to 1");
        assertEquals(8, time.independentValues());
    }

    /**
     * Each value held so many times over: the likeness of a triangle, whose sum is the hold. Twenty seeds, 500 values each; the mean is
     * within 5 %.
     */
    @Test
    void heldValues() {
        Moments times = new Moments();
        Random random = new Random(5);
        for (int run = 0; run < 20; run++) {
            double[] fresh = random.doubles(500).toArray();
            double[] held = new double[4 * fresh.length];
            Arrays.setAll(held, i -> fresh[i / 4]);
            times.add(CorrelationTime.of(held).timeSamples());
        }
        assertEquals(4, times.mean(), 0.2, "seed 5");
    }

    /** Scale and offset change nothing but rounding. */
    @Test
    void scaleAndOffset() {
        double[] values = AutoregressiveSeries.of(0.8, 2000, new Random(6));
        double[] other = Arrays.stream(values).map(x -> 1000 - 7 * x).toArray();
        CorrelationTime time = CorrelationTime.of(values);
        assertEquals(time.timeSamples(), CorrelationTime.of(other).timeSamples(), 1e-9);
        assertTrue(time.timeSamples() > 5 && time.windowSamples() >= 5 * time.timeSamples(), time.toString());
    }

    @Test
    void neverBelowOne() {
        double[] alternating = new double[100];
        Arrays.setAll(alternating, i -> i % 2);
        assertEquals(1, CorrelationTime.of(alternating).timeSamples());
        assertEquals(1, CorrelationTime.of(new double[100]).timeSamples(), "one value over and over");
        assertEquals(1, CorrelationTime.of(new double[] {1, 2}).timeSamples());
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> CorrelationTime.of(new double[] {1}));
        assertThrows(IllegalArgumentException.class, () -> CorrelationTime.of(new double[] {1, Double.NaN, 2}));
        assertThrows(IllegalArgumentException.class, () -> new CorrelationTime(0.9, 1, 10));
        assertThrows(IllegalArgumentException.class, () -> new CorrelationTime(2, 0, 10));
        assertThrows(IllegalArgumentException.class, () -> new CorrelationTime(2, 10, 10));
    }
}
