package org.steadyshaft.ripple;

import java.util.List;
import org.steadyshaft.signal.DoubleSeries;

/**
 * The spectrum of the speed over the steady stretches by true frequency, and what stands in it.
 *
 * @param frequencyHz frequencies, increasing
 * @param amplitudePercent amplitude of a line at each [% of the mean speed, 0 to peak]
 * @param lines the lines that are proven, largest first
 * @param humHz frequencies of pick-up, which is left out
 * @param hidden places where a line of the mains cannot be told
 */
public record RippleSpectrum(
        DoubleSeries frequencyHz,
        DoubleSeries amplitudePercent,
        List<RippleLine> lines,
        List<Double> humHz,
        List<Double> hidden) {
    public static final RippleSpectrum NONE =
            new RippleSpectrum(DoubleSeries.EMPTY, DoubleSeries.EMPTY, List.of(), List.of(), List.of());

    public RippleSpectrum {
        if (frequencyHz.size() != amplitudePercent.size()) {
            throw new IllegalArgumentException("series of different lengths");
        }
        lines = List.copyOf(lines);
        humHz = List.copyOf(humHz);
        hidden = List.copyOf(hidden);
    }
}
