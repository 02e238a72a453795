package org.steadyshaft.ripple;

import java.util.Objects;

/**
 * How much the speed swings about a straight line through each steady stretch: what is proven, with noise, hum and blips left out.
 *
 * @param peakToPeakPercent highest less lowest speed [% of mean]: the coefficient of fluctuation of machine design, (n_max - n_min) / n_mean
 * @param rmsPercent root mean square [% of mean]
 * @param expandedRmsPercent expanded uncertainty of the rms, k = 2
 * @param bandFromHz the figures hold from here
 * @param bandToHz to here
 * @param noisePercent what noise alone does to the speed of a single cycle, root mean square; it is in none of the figures
 * @param twiceMains the line at twice the mains
 * @param mains the line at the mains
 */
public record Ripple(
        double peakToPeakPercent,
        double rmsPercent,
        double expandedRmsPercent,
        double bandFromHz,
        double bandToHz,
        double noisePercent,
        MainsRipple twiceMains,
        MainsRipple mains) {
    public Ripple {
        if (!(peakToPeakPercent >= 0)
                || !(rmsPercent >= 0)
                || !(expandedRmsPercent >= 0)
                || !(bandFromHz >= 0)
                || !(bandToHz > bandFromHz)
                || !(noisePercent >= 0)) {
            throw new IllegalArgumentException("ripple " + peakToPeakPercent + " %, " + rmsPercent + " +- "
                    + expandedRmsPercent + " %, " + bandFromHz + " to " + bandToHz + " Hz");
        }
        Objects.requireNonNull(twiceMains, "twiceMains");
        Objects.requireNonNull(mains, "mains");
    }

    /** Whether both lines of the mains are in the figures. */
    public boolean isWhole() {
        return twiceMains.figure().isPresent() && mains.figure().isPresent();
    }
}
