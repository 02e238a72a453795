package org.steadyshaft.stability;

import java.util.List;
import org.steadyshaft.signal.DoubleSeries;

/**
 * The spectrum of the speed over the steady stretches, and the lines found in it.
 *
 * @param frequencyHz frequencies, increasing, up to half the tacho frequency
 * @param amplitudePercent amplitude of a line at each [% of the mean speed, 0 to peak], the averaging over a cycle made
 *     good
 * @param lines the lines that stand clear of the noise, largest first
 */
public record RippleSpectrum(DoubleSeries frequencyHz, DoubleSeries amplitudePercent, List<RippleLine> lines) {
    public static final RippleSpectrum NONE = new RippleSpectrum(DoubleSeries.EMPTY, DoubleSeries.EMPTY, List.of());

    public RippleSpectrum {
        if (frequencyHz.size() != amplitudePercent.size()) {
            throw new IllegalArgumentException("series of different lengths");
        }
        lines = List.copyOf(lines);
    }
}
