package org.steadyshaft.numeric;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Exact two-sided limits for the mean of a Poisson count.
 *
 * <p>Lower limit: half the (1 - c)/2 quantile of chi-square with 2 k degrees of freedom (0 for k = 0); upper limit: half
 * the (1 + c)/2 quantile with 2 k + 2. Source: F. Garwood, Fiducial limits for the Poisson distribution, Biometrika 28
 * (1936) 437-442.
 *
 * @param low lower limit of the mean count
 * @param high upper limit of the mean count
 */
public record PoissonLimits(double low, double high) {
    public PoissonLimits {
        if (!(low >= 0) || !(high >= low)) {
            throw new IllegalArgumentException("limits " + low + " to " + high);
        }
    }

    /**
     * @param count events seen; 0 or more
     * @param confidence between 0 and 1, for example 0.95
     */
    public static PoissonLimits of(long count, double confidence) {
        double tail = 0.5 * (1 - confidence);
        double low = count == 0 ? 0 : 0.5 * quantile(2.0 * count, tail);
        return new PoissonLimits(low, 0.5 * quantile(2.0 * count + 2, 1 - tail));
    }

    /** The one-sided upper limit: the mean count that gives {@code count} events or fewer with chance 1 - confidence. */
    public static double upper(long count, double confidence) {
        return 0.5 * quantile(2.0 * count + 2, confidence);
    }

    private static double quantile(double degrees, double probability) {
        return ChiSquaredDistribution.of(degrees).inverseCumulativeProbability(probability);
    }
}
