package org.steadyshaft.numeric;

import org.apache.commons.statistics.distribution.TDistribution;

/**
 * A mean, or another estimate that is nearly normal, with its standard error.
 *
 * @param mean the estimate
 * @param standardError its standard error, in the same unit; 0 or more
 * @param degrees degrees of freedom of that error, above 0; infinity for an error that is known
 */
public record MeanEstimate(double mean, double standardError, double degrees) {
    public MeanEstimate {
        if (!Double.isFinite(mean) || !(standardError >= 0 && standardError < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("estimate " + mean + ", standard error " + standardError);
        }
        if (!(degrees > 0)) {
            throw new IllegalArgumentException("degrees of freedom " + degrees + "; expected above 0");
        }
    }

    /**
     * Mean of independent values, error s / sqrt(n) with n - 1 degrees of freedom. Neighbours that are alike make the error too
     * small: see {@link BlockBootstrap}.
     *
     * @param values two or more, finite
     */
    public static MeanEstimate ofValues(double[] values) {
        if (values.length < 2) {
            throw new IllegalArgumentException(values.length + " values; expected two or more");
        }
        Moments moments = new Moments();
        for (double value : values) {
            moments.add(value);
        }
        double error = moments.deviation() / Math.sqrt(values.length);
        return new MeanEstimate(moments.mean(), error, values.length - 1.0);
    }

    /** The estimate and Student's t times its error to both sides. */
    public ConfidenceInterval interval(double confidence) {
        ConfidenceInterval.requireConfidence(confidence);
        double half = standardError * TDistribution.of(degrees).inverseSurvivalProbability(0.5 * (1 - confidence));
        return new ConfidenceInterval(mean - half, mean + half, confidence);
    }
}
