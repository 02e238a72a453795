package org.steadyshaft.numeric;

/**
 * A spectral line located between the bins of a Hann-windowed spectrum by the ratio of the two highest bins.
 *
 * <p>With r the larger neighbour over the peak bin (magnitudes), the line stands d = (2 r - 1) / (r + 1) bins from the
 * peak bin towards that neighbour, and the peak is lowered to sin(pi d) / (pi d) / (1 - d^2). Exact for one undamped tone
 * without noise and without the image of negative frequencies. Source: T. Grandke, Interpolation algorithms for discrete
 * Fourier transforms of weighted signals, IEEE Trans. Instrum. Meas. IM-32(2) 350-355, 1983 (from memory; rederived in the
 * tests).
 *
 * @param bin place of the line, in bins
 * @param magnitude its height as it would be at the centre of a bin
 */
public record HannPeak(double bin, double magnitude) {
    public HannPeak {
        if (!(bin >= 0) || !(magnitude >= 0)) {
            throw new IllegalArgumentException("peak of height " + magnitude + " at bin " + bin);
        }
    }

    /**
     * Interpolates around a local maximum.
     *
     * @param power squared magnitudes of a Hann-windowed spectrum
     * @param peak index of the local maximum, from 1 to the last but one
     */
    public static HannPeak at(double[] power, int peak) {
        double before = Math.sqrt(power[peak - 1]);
        double middle = Math.sqrt(power[peak]);
        double after = Math.sqrt(power[peak + 1]);
        if (!(middle > 0)) {
            return new HannPeak(peak, 0);
        }
        double ratio = Math.max(before, after) / middle;
        double offset = Math.min(0.5, Math.max(0, (2 * ratio - 1) / (ratio + 1)));
        double lowered = offset < 1e-9 ? 1 : Math.sin(Math.PI * offset) / (Math.PI * offset) / (1 - offset * offset);
        return new HannPeak(peak + (after >= before ? offset : -offset), middle / lowered);
    }
}
