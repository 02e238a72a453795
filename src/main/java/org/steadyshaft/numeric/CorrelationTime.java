package org.steadyshaft.numeric;

/**
 * How many values of a series count as one independent value for its mean: the variance of the mean is that of one value times
 * time / count.
 *
 * <p>Formula: time = 1 + 2 (r(1) + ... + r(W)), r(k) the autocorrelation at lag k with divisor n about the mean, W the first lag
 * that is at least five times the sum up to it (fewer cut off likeness, more add noise); never below 1. The series should be
 * some 50 times longer: a short one gives too short a time, as its own mean is taken off. A series of one value over and over has
 * the time 1. A strong swing of one frequency, whose autocorrelation turns negative, also gives about 1: right for the mean, whose
 * swings cancel, too short for the blocks of another statistic.
 *
 * <p>Cost: values times window. Source, from memory: N. Madras, A. D. Sokal, Journal of Statistical Physics 50 (1988) 109-186;
 * the factor five is common practice.
 *
 * @param timeSamples the integrated autocorrelation time in samples; at least 1
 * @param windowSamples W, the largest lag in the sum
 * @param count values of the series
 */
public record CorrelationTime(double timeSamples, int windowSamples, int count) {
    private static final int WINDOWS_A_TIME = 5;

    public CorrelationTime {
        if (!(timeSamples >= 1) || windowSamples < 1 || windowSamples >= count) {
            throw new IllegalArgumentException(
                    "correlation time " + timeSamples + ", window " + windowSamples + " of " + count + " values");
        }
    }

    /**
     * @param values two or more, finite, evenly spaced in time
     */
    public static CorrelationTime of(double[] values) {
        if (values.length < 2) {
            throw new IllegalArgumentException(values.length + " values; expected two or more");
        }
        double[] away = aboutMean(values);
        double variance = product(away, 0);
        if (!Double.isFinite(variance)) {
            throw new IllegalArgumentException("values with a variance of " + variance + "; expected finite values");
        }
        double time = 1;
        for (int lag = 1; lag < values.length; lag++) {
            time += variance > 0 ? 2 * product(away, lag) / variance : 0;
            if (lag >= WINDOWS_A_TIME * time || lag == values.length - 1 || !(variance > 0)) {
                return new CorrelationTime(Math.max(1, time), lag, values.length);
            }
        }
        throw new AssertionError("the last lag ends the sum");
    }

    /** Independent values that the series is worth for its mean: count / time. */
    public double independentValues() {
        return count / timeSamples;
    }

    private static double[] aboutMean(double[] values) {
        Moments moments = new Moments();
        for (double value : values) {
            moments.add(value);
        }
        double[] away = new double[values.length];
        for (int i = 0; i < away.length; i++) {
            away[i] = values[i] - moments.mean();
        }
        return away;
    }

    private static double product(double[] values, int lag) {
        double sum = 0;
        for (int i = lag; i < values.length; i++) {
            sum += values[i] * values[i - lag];
        }
        return sum;
    }
}
