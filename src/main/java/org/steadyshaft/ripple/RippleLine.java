package org.steadyshaft.ripple;

import java.util.Objects;

/**
 * A periodic part of the speed.
 *
 * @param frequencyHz its true frequency; above 0
 * @param amplitudePercent 0 to peak, of the mean speed
 * @param expandedPercent expanded uncertainty of the amplitude, k = 2
 * @param cause what it likely comes from
 * @param certainty how sure that is
 * @param readFrom where it was read
 * @param order its frequency in swings a turn of the shaft
 */
public record RippleLine(
        double frequencyHz,
        double amplitudePercent,
        double expandedPercent,
        RippleCause cause,
        Certainty certainty,
        ReadFrom readFrom,
        double order) {
    public RippleLine {
        if (!(frequencyHz > 0) || !(amplitudePercent >= 0) || !(expandedPercent >= 0) || !(order > 0)) {
            throw new IllegalArgumentException(
                    "line of " + amplitudePercent + " +- " + expandedPercent + " % at " + frequencyHz + " Hz");
        }
        Objects.requireNonNull(cause, "cause");
        Objects.requireNonNull(certainty, "certainty");
        Objects.requireNonNull(readFrom, "readFrom");
    }
}
