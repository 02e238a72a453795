package org.steadyshaft.stability;

/**
 * How much the mean speed over a time differs from that over the next such time: a point of the overlapping Allan deviation.
 *
 * @param tauSeconds averaging time; above 0
 * @param deviation Allan deviation of the speed as a share of its mean (0.01 is 1 %); 0 or above
 * @param low95 lower end of its 95 % interval; 0 to the deviation
 * @param high95 upper end; not below the deviation
 */
public record StabilityPoint(double tauSeconds, double deviation, double low95, double high95) {
    public StabilityPoint {
        if (!(tauSeconds > 0)
                || !(low95 >= 0)
                || !(deviation >= low95)
                || !(high95 >= deviation)
                || !Double.isFinite(tauSeconds + high95)) {
            throw new IllegalArgumentException(
                    "Allan deviation " + deviation + " (" + low95 + " to " + high95 + ") at " + tauSeconds + " s");
        }
    }
}
