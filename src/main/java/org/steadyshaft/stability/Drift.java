package org.steadyshaft.stability;

/**
 * How the speed creeps.
 *
 * @param percentPerMinute slope [% of the mean speed a minute]
 * @param low95 lower end of its 95 % interval
 * @param high95 upper end
 */
public record Drift(double percentPerMinute, double low95, double high95) {
    public Drift {
        if (!(low95 <= percentPerMinute) || !(percentPerMinute <= high95) || !Double.isFinite(high95 - low95)) {
            throw new IllegalArgumentException(
                    "drift " + percentPerMinute + " %/min, interval " + low95 + " to " + high95);
        }
    }

    /** Whether the interval excludes no drift at all. */
    public boolean significant() {
        return low95 > 0 || high95 < 0;
    }
}
