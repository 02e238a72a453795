package org.steadyshaft.ripple;

/**
 * About a second of steady running, events left out; deviations are from a straight line through the steady stretch [% of the mean].
 *
 * @param fromSeconds when it begins
 * @param seconds its length
 * @param meanPercent mean deviation
 * @param slowSquare mean square of the slow deviation, the noise's own taken off; may be a little below 0
 * @param lineSquare mean square of the fast lines
 * @param lowPercent lowest deviation, lines included
 * @param highPercent highest deviation, lines included
 */
public record SteadySecond(
        double fromSeconds,
        double seconds,
        double meanPercent,
        double slowSquare,
        double lineSquare,
        double lowPercent,
        double highPercent) {
    public SteadySecond {
        if (!(seconds > 0)
                || !Double.isFinite(meanPercent)
                || !Double.isFinite(slowSquare)
                || !(lineSquare >= 0)
                || !(highPercent >= lowPercent)) {
            throw new IllegalArgumentException("second at " + fromSeconds + " s of " + meanPercent + " %");
        }
    }

    /** Mean square of the deviation [%^2]. */
    public double meanSquare() {
        return slowSquare + lineSquare;
    }

    /** Highest less lowest [%]. */
    public double swingPercent() {
        return highPercent - lowPercent;
    }
}
