package org.steadyshaft.ripple;

import org.steadyshaft.signal.DoubleSeries;

/**
 * The ripple counted along the shaft's angle.
 *
 * @param order swings a turn of the shaft, increasing, up to half the pole pairs
 * @param amplitudePercent amplitude of a line at each [% of the mean speed, 0 to peak], the averaging over a cycle made good
 */
public record OrderSpectrum(DoubleSeries order, DoubleSeries amplitudePercent) {
    public static final OrderSpectrum NONE = new OrderSpectrum(DoubleSeries.EMPTY, DoubleSeries.EMPTY);

    public OrderSpectrum {
        if (order.size() != amplitudePercent.size()) {
            throw new IllegalArgumentException("series of different lengths");
        }
    }
}
