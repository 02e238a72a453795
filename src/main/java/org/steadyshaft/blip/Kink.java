package org.steadyshaft.blip;

/**
 * A sudden change of the speed that returns: from its start the speed rises in a straight line over the rise, then comes back,
 * exponentially or ringing: as a loop or a soft coupling lets it.
 *
 * @param startSeconds after the recording's first sample
 * @param percent height, of the piece's mean speed; signed
 * @param riseSeconds above 0
 * @param returnSeconds time constant of the return; above 0
 * @param ringing angular frequency of a ringing return [rad/s]; 0 where it is exponential
 */
public record Kink(double startSeconds, double percent, double riseSeconds, double returnSeconds, double ringing) {
    public Kink {
        if (!(riseSeconds > 0)
                || !(returnSeconds > 0)
                || !(ringing >= 0)
                || !Double.isFinite(startSeconds)
                || !Double.isFinite(percent)) {
            throw new IllegalArgumentException("kink of " + percent + " % at " + startSeconds + " s, rise "
                    + riseSeconds + " s, return " + returnSeconds + " s, ringing " + ringing + " rad/s");
        }
    }

    /** One that returns exponentially. */
    public Kink(double startSeconds, double percent, double riseSeconds, double returnSeconds) {
        this(startSeconds, percent, riseSeconds, returnSeconds, 0);
    }

    /** Integral of the unit change from its start to {@code since} after it: the angle it adds, in seconds. */
    static double bend(double since, double rise, double back) {
        return bend(since, rise, back, 0);
    }

    /** The same of a ringing return. */
    static double bend(double since, double rise, double back, double ringing) {
        if (since <= 0) {
            return 0;
        }
        if (since < rise) {
            return since * since / (2 * rise);
        }
        if (ringing == 0) {
            return 0.5 * rise - back * Math.expm1((rise - since) / back);
        }
        double rate = 1 / back;
        double angle = ringing * (since - rise);
        double decay = Math.exp((rise - since) / back);
        return 0.5 * rise
                + (rate + decay * (ringing * Math.sin(angle) - rate * Math.cos(angle)))
                        / (rate * rate + ringing * ringing);
    }

    /** Integral of the unit change at a time [s]. */
    public double bendAt(double timeSeconds) {
        return bend(timeSeconds - startSeconds, riseSeconds, returnSeconds, ringing);
    }

    /** Integral of the whole unit change [s]. */
    public double bendInAll() {
        return 0.5 * riseSeconds + returnSeconds / (1 + Math.pow(returnSeconds * ringing, 2));
    }

    /** The unit change at a time. */
    public double changeAt(double timeSeconds) {
        double since = timeSeconds - startSeconds;
        if (since <= 0) {
            return 0;
        }
        double behind = since - riseSeconds;
        return behind < 0 ? since / riseSeconds : Math.exp(-behind / returnSeconds) * Math.cos(ringing * behind);
    }

    /** The same with another size. */
    Kink withPercent(double other) {
        return new Kink(startSeconds, other, riseSeconds, returnSeconds, ringing);
    }

    /** The same with another return. */
    Kink returning(double otherSeconds, double otherRinging) {
        return new Kink(startSeconds, percent, riseSeconds, otherSeconds, otherRinging);
    }
}
