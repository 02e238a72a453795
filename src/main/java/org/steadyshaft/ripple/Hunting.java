package org.steadyshaft.ripple;

import java.util.Objects;

/**
 * A slow swing of the speed that lasts.
 *
 * @param frequencyHz above 0
 * @param amplitudePercent 0 to peak, of the mean speed
 * @param trend how it goes on
 */
public record Hunting(double frequencyHz, double amplitudePercent, Trend trend) {
    /** How a swing goes on. */
    public enum Trend {
        GROWING("growing"),
        SUSTAINED("sustained"),
        DYING("dying");

        private final String word;

        Trend(String word) {
            this.word = word;
        }

        /** The word used in result files and pages. */
        public String word() {
            return word;
        }
    }

    public Hunting {
        Objects.requireNonNull(trend, "trend");
        if (!(frequencyHz > 0) || !(amplitudePercent > 0)) {
            throw new IllegalArgumentException("hunting of " + amplitudePercent + " % at " + frequencyHz + " Hz");
        }
    }
}
