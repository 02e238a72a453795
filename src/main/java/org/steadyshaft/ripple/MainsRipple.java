package org.steadyshaft.ripple;

import java.util.Optional;

/**
 * The ripple at a multiple of the mains: a figure with its interval, or why there is none; exactly one of both.
 *
 * @param frequencyHz where it stands
 * @param figure the figure
 * @param untold why there is none
 */
public record MainsRipple(double frequencyHz, Optional<Figure> figure, Optional<Untold> untold) {
    /**
     * Amplitude, 0 to peak [% of the mean speed], and its expanded uncertainty, k = 2.
     *
     * @param others how many other recordings of the tacho had to tell what its poles give; 0 where the recording alone tells
     */
    public record Figure(double amplitudePercent, double expandedPercent, int others) {
        public Figure {
            if (!(amplitudePercent >= 0) || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException(amplitudePercent + " +- " + expandedPercent + " %");
            }
        }
    }

    public MainsRipple {
        if (!(frequencyHz > 0) || figure.isPresent() == untold.isPresent()) {
            throw new IllegalArgumentException("ripple at " + frequencyHz + " Hz: " + figure + ", " + untold);
        }
    }
}
