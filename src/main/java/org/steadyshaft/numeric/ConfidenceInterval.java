package org.steadyshaft.numeric;

/**
 * A two-sided interval that holds the true value with a given chance.
 *
 * @param low lower limit; minus infinity where there is none
 * @param high upper limit; infinity where there is none
 * @param confidence between 0 and 1, both left out
 */
public record ConfidenceInterval(double low, double high, double confidence) {
    public ConfidenceInterval {
        if (!(low <= high)) {
            throw new IllegalArgumentException("interval from " + low + " to " + high);
        }
        requireConfidence(confidence);
    }

    /** Whether a value lies between the limits or on one. */
    public boolean holds(double value) {
        return value >= low && value <= high;
    }

    static void requireConfidence(double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException("confidence " + confidence + "; expected between 0 and 1");
        }
    }
}
