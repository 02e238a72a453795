package org.steadyshaft.speed;

/**
 * The tacho frequency of a recording at constant speed by a sine fit over its whole length.
 *
 * @param frequencyHz the frequency
 * @param standardErrorHz its standard uncertainty from the residuals, correlation and their small number allowed for
 * @param fromSeconds where the fit begins
 * @param toSeconds where it ends
 */
public record SineMean(double frequencyHz, double standardErrorHz, double fromSeconds, double toSeconds) {
    public SineMean {
        if (!(frequencyHz > 0) || !(standardErrorHz >= 0) || !(toSeconds > fromSeconds)) {
            throw new IllegalArgumentException("sine of " + frequencyHz + " +- " + standardErrorHz + " Hz from "
                    + fromSeconds + " to " + toSeconds + " s");
        }
    }
}
