package org.steadyshaft.stability;

import java.util.Objects;

/**
 * A periodic part of the speed.
 *
 * @param frequencyHz its frequency; above 0
 * @param amplitudePercent 0 to peak, of the mean speed, the averaging over a cycle made good
 * @param cause what it likely comes from
 * @param certainty how sure that is
 */
public record RippleLine(double frequencyHz, double amplitudePercent, RippleCause cause, Certainty certainty) {
    public RippleLine {
        if (!(frequencyHz > 0) || !(amplitudePercent >= 0)) {
            throw new IllegalArgumentException("line of " + amplitudePercent + " % at " + frequencyHz + " Hz");
        }
        Objects.requireNonNull(cause, "cause");
        Objects.requireNonNull(certainty, "certainty");
    }
}
