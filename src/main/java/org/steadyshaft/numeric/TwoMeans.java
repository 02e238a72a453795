package org.steadyshaft.numeric;

import org.apache.commons.statistics.distribution.TDistribution;

/**
 * The difference of two independent means whose spreads need not be equal, by Welch's t test.
 *
 * <p>Standard error s = sqrt(s1^2 + s2^2) of the errors of both means; t = difference / s follows Student's t nearly, with
 * s^4 / (s1^4 / nu1 + s2^4 / nu2) degrees of freedom: never fewer than the smaller of nu1 and nu2, never more than their sum.
 *
 * <p>Sources, from memory: B. L. Welch, Biometrika 34 (1947) 28-35; F. E. Satterthwaite, Biometrics Bulletin 2 (1946) 110-114.
 *
 * @param difference first mean less second
 * @param standardError of the difference; 0 where both sides have none
 * @param degrees degrees of freedom of that error, above 0; infinity for an error that is known
 */
public record TwoMeans(double difference, double standardError, double degrees) {
    public TwoMeans {
        if (!Double.isFinite(difference) || !(standardError >= 0 && standardError < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("difference " + difference + ", standard error " + standardError);
        }
        if (!(degrees > 0)) {
            throw new IllegalArgumentException("degrees of freedom " + degrees + "; expected above 0");
        }
    }

    public static TwoMeans of(MeanEstimate first, MeanEstimate second) {
        double error = Math.hypot(first.standardError(), second.standardError());
        double degrees = first.degrees() + second.degrees();
        if (error > 0) {
            double firstShare = Math.pow(first.standardError() / error, 2);
            double secondShare = Math.pow(second.standardError() / error, 2);
            degrees = 1 / (firstShare * firstShare / first.degrees() + secondShare * secondShare / second.degrees());
        }
        return new TwoMeans(first.mean() - second.mean(), error, degrees);
    }

    /** t, the difference over its error; 0 without a difference, infinite for one without an error. */
    public double statistic() {
        return difference == 0 ? 0 : difference / standardError;
    }

    /** Chance of a t at least so far from 0, to either side, were the true means equal. */
    public double pValue() {
        return Math.min(1, 2 * TDistribution.of(degrees).survivalProbability(Math.abs(statistic())));
    }

    /** Interval of the true difference. */
    public ConfidenceInterval interval(double confidence) {
        return new MeanEstimate(difference, standardError, degrees).interval(confidence);
    }
}
