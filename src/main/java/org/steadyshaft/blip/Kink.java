package org.steadyshaft.blip;

/**
 * A sudden change of the speed that returns: from its start the speed rises in a straight line over the rise, then comes back
 * exponentially.
 *
 * @param startSeconds after the recording's first sample
 * @param percent height, of the piece's mean speed; signed
 * @param riseSeconds above 0
 * @param returnSeconds time constant of the return; above 0
 */
public record Kink(double startSeconds, double percent, double riseSeconds, double returnSeconds) {
    public Kink {
        if (!(riseSeconds > 0) || !(returnSeconds > 0) || !Double.isFinite(startSeconds) || !Double.isFinite(percent)) {
            throw new IllegalArgumentException("kink of " + percent + " % at " + startSeconds + " s, rise "
                    + riseSeconds + " s, return " + returnSeconds + " s");
        }
    }

    /** Integral of the unit change from its start to {@code since} after it: the angle it adds, in seconds. */
    static double bend(double since, double rise, double back) {
        if (since <= 0) {
            return 0;
        }
        if (since < rise) {
            return since * since / (2 * rise);
        }
        return 0.5 * rise - back * Math.expm1((rise - since) / back);
    }

    /** The unit change itself. */
    static double change(double since, double rise, double back) {
        if (since <= 0) {
            return 0;
        }
        return since < rise ? since / rise : Math.exp((rise - since) / back);
    }

    /** Integral of the unit change at a time [s]. */
    public double bendAt(double timeSeconds) {
        return bend(timeSeconds - startSeconds, riseSeconds, returnSeconds);
    }

    /** The unit change at a time. */
    public double changeAt(double timeSeconds) {
        return change(timeSeconds - startSeconds, riseSeconds, returnSeconds);
    }
}
