package org.steadyshaft.numeric;

import java.util.Random;

/**
 * Steady normal series x(i) = phi x(i - 1) + e(i) of mean 0 and variance 1; its autocorrelation is phi^k, so its integrated
 * autocorrelation time is (1 + phi) / (1 - phi) samples.
 */
final class AutoregressiveSeries {
    private AutoregressiveSeries() {}

    static double[] of(double phi, int count, Random random) {
        double[] values = new double[count];
        values[0] = random.nextGaussian();
        double fresh = Math.sqrt(1 - phi * phi);
        for (int i = 1; i < count; i++) {
            values[i] = phi * values[i - 1] + fresh * random.nextGaussian();
        }
        return values;
    }

    static double timeSamples(double phi) {
        return (1 + phi) / (1 - phi);
    }
}
