package org.steadyshaft.numeric;

import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * Two rates of events that come by chance (Poisson), compared by their counts.
 *
 * <p>Given the sum n of both counts, the first count is binomial with the share p = r e1 / (r e1 + e2), r being the ratio of the
 * true rates and e the exposures. The test of equal rates is the exact test of p = e1 / (e1 + e2); limits of r come from the exact
 * limits of p. Both are cautious: the chance of a false alarm is at most the level, and with few events far below it.
 *
 * <p>Sources, from memory: J. Przyborowski, H. Wilenski, Biometrika 31 (1940) 313-323; C. J. Clopper, E. S. Pearson, Biometrika 26
 * (1934) 404-413.
 *
 * @param firstCount events seen on the first side; 0 or more
 * @param firstExposure how long, or over how much, they were counted; above 0
 * @param secondCount as the first
 * @param secondExposure in the unit of the first
 */
public record PoissonRates(long firstCount, double firstExposure, long secondCount, double secondExposure) {
    public PoissonRates {
        if (firstCount < 0 || secondCount < 0) {
            throw new IllegalArgumentException(firstCount + " and " + secondCount + " events; expected 0 or more");
        }
        if (!isExposure(firstExposure) || !isExposure(secondExposure)) {
            throw new IllegalArgumentException(
                    "exposures " + firstExposure + " and " + secondExposure + "; expected above 0 and finite");
        }
    }

    /** First rate over second; empty where the second count is 0. */
    public OptionalDouble ratio() {
        if (secondCount == 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(firstCount / firstExposure / (secondCount / secondExposure));
    }

    /**
     * Two-sided p-value of equal rates: twice the smaller of the chances of so few and of so many events on the first side, at most
     * 1; 1 without events.
     */
    public double pValue() {
        double share = 1 / (1 + secondExposure / firstExposure);
        double otherShare = 1 / (1 + firstExposure / secondExposure);
        double soMany = atLeast(firstCount, secondCount, share);
        double soFew = atLeast(secondCount, firstCount, otherShare);
        return Math.min(1, 2 * Math.min(soMany, soFew));
    }

    /** Exact limits of the first true rate over the second: from 0 where the first count is 0, to infinity where the second is. */
    public ConfidenceInterval ratioInterval(double confidence) {
        ConfidenceInterval.requireConfidence(confidence);
        double tail = 0.5 * (1 - confidence);
        double exposures = secondExposure / firstExposure;
        double low = 0;
        if (firstCount > 0) {
            double share = BetaDistribution.of(firstCount, secondCount + 1.0).inverseCumulativeProbability(tail);
            low = share / (1 - share) * exposures;
        }
        double high = Double.POSITIVE_INFINITY;
        if (secondCount > 0) {
            double otherShare =
                    BetaDistribution.of(secondCount, firstCount + 1.0).inverseCumulativeProbability(tail);
            high = (1 - otherShare) / otherShare * exposures;
        }
        return new ConfidenceInterval(low, high, confidence);
    }

    /** Chance of {@code count} or more of {@code count + others} events, each with the chance {@code share}: an incomplete beta. */
    private static double atLeast(long count, long others, double share) {
        return count == 0 ? 1 : BetaDistribution.of(count, others + 1.0).cumulativeProbability(share);
    }

    private static boolean isExposure(double exposure) {
        return exposure > 0 && exposure < Double.POSITIVE_INFINITY;
    }
}
