package org.steadyshaft.stability;

/**
 * How much the speed varies about a straight line through each steady stretch, blips left out.
 *
 * @param peakToPeakPercent largest less smallest cycle speed [% of mean]: the coefficient of fluctuation of machine
 *     design, (n_max - n_min) / n_mean
 * @param rmsPercent root mean square [% of mean], measurement noise included
 * @param observableToHz ripple faster than this does not show in its place
 */
public record Ripple(double peakToPeakPercent, double rmsPercent, double observableToHz) {
    public Ripple {
        if (!(peakToPeakPercent >= 0) || !(rmsPercent >= 0) || !(observableToHz > 0)) {
            throw new IllegalArgumentException(
                    "ripple " + peakToPeakPercent + " %, " + rmsPercent + " %, up to " + observableToHz + " Hz");
        }
    }
}
