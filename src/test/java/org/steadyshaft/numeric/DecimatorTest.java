package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DecimatorTest {
    private static final double PASS_BAND = 1e-6;

    /** -100 dB. */
    private static final double ALIAS = 1e-5;

    @ParameterizedTest
    @CsvSource({"2, 16", "4, 16", "8, 16", "8, 12", "2, 26", "4, 26", "8, 26"})
    void keepsTheCleanBandAndLetsNothingFoldIntoIt(int factor, int taps) {
        Decimator decimator = new Decimator(factor, taps);
        double clean = Decimator.cleanShare(taps) / factor;
        for (int step = 0; step <= 200; step++) {
            double share = clean * step / 200;
            assertEquals(1, decimator.response(share), PASS_BAND, "gain at " + share);
            for (int fold = 1; fold <= factor / 2; fold++) {
                assertTrue(Math.abs(decimator.response((double) fold / factor - share)) < ALIAS, "fold " + fold);
                assertTrue(Math.abs(decimator.response((double) fold / factor + share)) < ALIAS, "fold " + fold);
            }
        }
    }

    /** Also over the seams of the blocks that it works in. */
    @ParameterizedTest
    @CsvSource({"2, 16, 3000", "4, 16, 1024", "8, 12, 1025", "8, 26, 7"})
    void aSineStaysWhereItIsAtTheLowerRate(int factor, int taps, int count) {
        Decimator decimator = new Decimator(factor, taps);
        double share = 0.7 * Decimator.cleanShare(taps) / factor;
        int at = decimator.reach();
        double[] in = new double[count * factor + 2 * at];
        for (int i = 0; i < in.length; i++) {
            in[i] = Math.sin(2 * Math.PI * share * (i - at) + 0.3);
        }
        double[] out = new double[count];
        decimator.run(in, at, out, count);
        for (int r = 0; r < count; r++) {
            assertEquals(Math.sin(2 * Math.PI * share * r * factor + 0.3), out[r], 2 * PASS_BAND, "sample " + r);
        }
    }

    @Test
    void isTheSumOverItsWeightsWhateverComesIn() {
        Decimator decimator = new Decimator(4, 16);
        Random random = new Random(5);
        double[] in = random.doubles(4 * 40 + 2 * decimator.reach(), -1, 1).toArray();
        double[] impulse = new double[2 * decimator.reach() + 1];
        double[] out = new double[40];
        decimator.run(in, decimator.reach(), out, 40);
        // the weights, read off one by one by an impulse
        double[] weights = new double[2 * decimator.reach()];
        for (int k = 0; k < weights.length; k++) {
            double[] one = new double[impulse.length + 4];
            one[k] = 1;
            double[] w = new double[1];
            decimator.run(one, decimator.reach(), w, 1);
            weights[k] = w[0];
        }
        for (int r = 0; r < 40; r++) {
            double sum = 0;
            for (int k = 0; k < weights.length; k++) {
                sum += weights[k] * in[r * 4 + k];
            }
            assertEquals(sum, out[r], 1e-14);
        }
    }

    @Test
    void refusesWhatItWasNotMadeFor() {
        assertThrows(IllegalArgumentException.class, () -> new Decimator(3, 16));
        assertThrows(IllegalArgumentException.class, () -> new Decimator(8, 9));
    }
}
