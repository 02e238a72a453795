package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BlockBootstrapTest {
    /** Every series put together from 0, 1, ... consists of whole blocks that run on, the last one cut. */
    @Test
    void seriesConsistOfBlocks() {
        double[] ramp = ramp(23);
        int[] starts = new int[23];
        new BlockBootstrap(5, 4000, 3).resample(ramp, series -> {
            assertEquals(23, series.length);
            for (int i = 0; i < series.length; i++) {
                if (i % 5 == 0) {
                    starts[(int) series[i]]++;
                } else {
                    assertEquals((series[i - 1] + 1) % 23, series[i], "inside a block");
                }
            }
            return 0;
        });
        double expected = 4001 * 5 / 23.0;
        for (int count : starts) {
            assertEquals(expected, count, 5 * Math.sqrt(expected), "blocks begin anywhere with equal chance, seed 3");
        }
        assertArrayEquals(ramp(23), ramp, "the values are left alone");
    }

    @Test
    void theSeedAloneDecides() {
        double[] values = new Random(4).doubles(50).toArray();
        BootstrapReplicates once = new BlockBootstrap(4, 100, 9).resample(values, BootstrapPublishedTest::mean);
        BootstrapReplicates again = new BlockBootstrap(4, 100, 9).resample(values, BootstrapPublishedTest::mean);
        BootstrapReplicates other = new BlockBootstrap(4, 100, 10).resample(values, BootstrapPublishedTest::mean);
        for (int i = 0; i < once.count(); i++) {
            assertEquals(once.get(i), again.get(i));
        }
        assertNotEquals(once.standardError(), other.standardError());
        assertEquals(BootstrapPublishedTest.mean(values), once.estimate());
    }

    /**
     * The exact variance of the mean over all blocks that circle round is the mean square of the block means about the mean, over the
     * number of blocks: summed here start by start. Tolerance: four times the Monte Carlo error s / sqrt(2 B) of normal replicates.
     */
    @ParameterizedTest
    @CsvSource({"1", "6", "20"})
    void standardErrorOfTheMeanIsThatOfTheBlockMeans(int blockLength) {
        double[] values = AutoregressiveSeries.of(0.8, 240, new Random(21));
        double mean = BootstrapPublishedTest.mean(values);
        double squares = 0;
        for (int start = 0; start < values.length; start++) {
            double sum = 0;
            for (int i = 0; i < blockLength; i++) {
                sum += values[(start + i) % values.length] - mean;
            }
            squares += sum * sum / blockLength / blockLength;
        }
        double exact = Math.sqrt(squares / values.length * blockLength / values.length);
        BootstrapReplicates found =
                new BlockBootstrap(blockLength, 20_000, 5).resample(values, BootstrapPublishedTest::mean);
        assertEquals(exact, found.standardError(), 4 * exact / Math.sqrt(2 * 20_000), "seed 21 and 5");
    }

    /** With 99 replicates 0 to 98 the 90 % limits are the 5th from each end: 4 and 94 (worked by hand: places 5 and 95 of 100). */
    @Test
    void percentilesOfKnownReplicates() {
        double[] replicates = ramp(99);
        BootstrapReplicates known = new BootstrapReplicates(49, replicates, 100, 10);
        assertEquals(4, known.percentileInterval(0.90).low(), 1e-9);
        assertEquals(94, known.percentileInterval(0.90).high(), 1e-9);
        assertEquals(0, known.percentileInterval(0.98).low(), 1e-9, "the outermost that 99 replicates reach");
        assertThrows(IllegalArgumentException.class, () -> known.percentileInterval(0.985));
    }

    /**
     * Worked by hand: 100 values in blocks of 10 have 3 1000 / 201 - 1 = 13.925 degrees; t beyond 5 % is 1.7617 (between 1.771 and 1.761
     * for 13 and 14 degrees), z is 1.6449 (printed tables, from memory), sqrt(10 / 9) is 1.0541: 45 becomes 45 1.1290 = 50.8.
     */
    @Test
    void wideningOfKnownReplicates() {
        BootstrapReplicates known = new BootstrapReplicates(49, ramp(99), 100, 10);
        assertEquals(49 - 50.8, known.widenedInterval(0.90).low(), 0.05);
        assertEquals(49 + 50.8, known.widenedInterval(0.90).high(), 0.05);
        assertEquals(13.925, known.asMeanEstimate().degrees(), 0.001);
        assertEquals(
                known.standardError() * Math.sqrt(10 / 9.0),
                known.asMeanEstimate().standardError(),
                1e-12);
    }

    /** A limit on the far side of the estimate stays where it is, so the widened interval always holds the plain one. */
    @Test
    void wideningNeverNarrows() {
        BootstrapReplicates skew = new BootstrapReplicates(-10, ramp(99), 100, 10);
        assertEquals(
                skew.percentileInterval(0.9).low(), skew.widenedInterval(0.9).low());
        assertTrue(
                skew.widenedInterval(0.9).high() > skew.percentileInterval(0.9).high());
    }

    @Test
    void badCallsAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new BlockBootstrap(0, 100, 1));
        assertThrows(IllegalArgumentException.class, () -> new BlockBootstrap(1, 1, 1));
        BlockBootstrap blocks = new BlockBootstrap(5, 10, 1);
        assertThrows(IllegalArgumentException.class, () -> blocks.resample(ramp(9), BootstrapPublishedTest::mean));
        assertThrows(IllegalArgumentException.class, () -> blocks.resample(ramp(10), series -> Double.NaN));
        assertEquals(10, blocks.resample(ramp(10), BootstrapPublishedTest::mean).count(), "two blocks are enough");
    }

    private static double[] ramp(int count) {
        double[] values = new double[count];
        Arrays.setAll(values, i -> i);
        return values;
    }
}
