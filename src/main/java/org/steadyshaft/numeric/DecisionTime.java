package org.steadyshaft.numeric;

import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * How much longer both sides of a comparison must be recorded to decide a difference that is as large as it looks.
 *
 * <p>Formula: the x that solves s1^2 t1 / (t1 + x) + s2^2 t2 / (t2 + x) = (d / z)^2, a quadratic equation. If the true difference is
 * d, the longer recordings reach z with a chance of one half only; for a chance of four fifths add 0.84 to z (normal quantile).
 *
 * @param neededSigmas z, standard errors that a difference must reach to count; above 0
 * @param mostSeconds more than that on each side is no answer; above 0
 */
public record DecisionTime(double neededSigmas, double mostSeconds) {
    public DecisionTime {
        if (!(neededSigmas > 0 && neededSigmas < Double.POSITIVE_INFINITY)
                || !(mostSeconds > 0 && mostSeconds < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    neededSigmas + " standard errors, at most " + mostSeconds + " s; expected both above 0");
        }
    }

    /**
     * Standard errors that a normal estimate goes beyond, to either side, with the chance {@code level}: 1.96 for 0.05.
     *
     * @param level between 0 and 1, already shared out among several tests
     */
    public static double sigmas(double level) {
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("level " + level + "; expected between 0 and 1");
        }
        return NormalDistribution.of(0, 1).inverseSurvivalProbability(0.5 * level);
    }

    /**
     * Seconds that each side needs beyond what it has: 0 if the difference is decided, empty if it is 0 or needs more than the most.
     */
    public OptionalDouble moreSeconds(double difference, TimedError first, TimedError second) {
        if (!Double.isFinite(difference)) {
            throw new IllegalArgumentException("difference " + difference);
        }
        double allowed = Math.pow(difference / neededSigmas, 2);
        if (difference == 0 || sum(first, second, mostSeconds) > allowed) {
            return OptionalDouble.empty();
        }
        if (sum(first, second, 0) <= allowed) {
            return OptionalDouble.of(0);
        }
        double firstPower = first.varianceAfter(0) / allowed * first.lengthSeconds();
        double secondPower = second.varianceAfter(0) / allowed * second.lengthSeconds();
        double half = 0.5 * (first.lengthSeconds() + second.lengthSeconds() - firstPower - secondPower);
        double below = firstPower * second.lengthSeconds()
                + secondPower * first.lengthSeconds()
                - first.lengthSeconds() * second.lengthSeconds();
        double root = Math.sqrt(half * half + below);
        double more = half > 0 ? below / (half + root) : root - half;
        return OptionalDouble.of(Math.max(0, Math.min(mostSeconds, more)));
    }

    private static double sum(TimedError first, TimedError second, double moreSeconds) {
        return first.varianceAfter(moreSeconds) + second.varianceAfter(moreSeconds);
    }
}
