package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The Hann-weighted mean against its definition, for short windows and for those taken by running sums. */
class SmoothingTest {
    private static double defined(double[] values, int half, int place) {
        double sum = 0;
        double weights = 0;
        for (int j = -half; j <= half; j++) {
            double weight = 0.5 + 0.5 * Math.cos(Math.PI * j / (half + 1));
            sum += weight * values[Math.max(0, Math.min(values.length - 1, place + j))];
            weights += weight;
        }
        return sum / weights;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 8, 9, 60, 700})
    void isTheWeightedMeanAtEveryPlace(int half) {
        Random random = new Random(half);
        double[] values = new double[9000];
        for (int i = 0; i < values.length; i++) {
            values[i] = 5 + random.nextGaussian();
        }
        double[] smooth = Smoothing.hann(values, half);
        for (int i = 0; i < values.length; i++) {
            assertEquals(defined(values, half, i), smooth[i], 1e-10, "place " + i);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 5, 50})
    void aStraightLineStaysOne(int half) {
        double[] line = new double[300];
        for (int i = 0; i < line.length; i++) {
            line[i] = 3 - 0.25 * i;
        }
        assertArrayEquals(line, Smoothing.overLine(line, half), 1e-10);
    }

    @ParameterizedTest
    @ValueSource(ints = {5, 50})
    void anAngleThatSpeedsUpKeepsItsSlopeAtTheEnds(int half) {
        double[] angle = new double[2000];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = i < 1000 ? i : 1000 + 3.0 * (i - 1000);
        }
        double[] smooth = Smoothing.overLine(angle, half);
        for (int i = 0; i < 900; i++) {
            assertEquals(angle[i], smooth[i], 1e-9);
            assertEquals(angle[angle.length - 1 - i], smooth[angle.length - 1 - i], 1e-9);
        }
    }
}
