package org.steadyshaft.numeric;

/**
 * The standard error of an estimate from a recording, which shrinks with the square root of the recording's length.
 *
 * @param standardError in the unit of the estimate; 0 or more
 * @param lengthSeconds length of the recording that gave it; above 0
 */
public record TimedError(double standardError, double lengthSeconds) {
    public TimedError {
        if (!(standardError >= 0 && standardError < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("standard error " + standardError + "; expected 0 or more");
        }
        if (!(lengthSeconds > 0 && lengthSeconds < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("length " + lengthSeconds + " s; expected above 0");
        }
    }

    /** The square of the standard error after so many more seconds. */
    double varianceAfter(double moreSeconds) {
        return standardError * standardError * lengthSeconds / (lengthSeconds + moreSeconds);
    }
}
