package org.steadyshaft.stability;

import java.util.Objects;

/**
 * A periodic part of the speed.
 *
 * @param frequencyHz its frequency; above 0
 * @param amplitudePercent 0 to peak, of the mean speed, the averaging over a cycle made good
 * @param cause what it likely comes from
 * @param certainty how sure that is
 * @param coincides whether a multiple of the mains and an order of the shaft both lie there and cannot be told apart
 * @param sourceHz frequency of what makes it: another than where it shows if it is folded
 * @param order its frequency in swings a turn of the shaft
 */
public record RippleLine(
        double frequencyHz,
        double amplitudePercent,
        RippleCause cause,
        Certainty certainty,
        boolean coincides,
        double sourceHz,
        double order) {
    public RippleLine {
        if (!(frequencyHz > 0) || !(sourceHz > 0) || !(amplitudePercent >= 0)) {
            throw new IllegalArgumentException("line of " + amplitudePercent + " % at " + frequencyHz + " Hz");
        }
        Objects.requireNonNull(cause, "cause");
        Objects.requireNonNull(certainty, "certainty");
    }
}
