package org.steadyshaft.published;

/**
 * Window functions as sums of cosines, w[n] = sum over k of (-1)^k a[k] cos(2 pi k n / N), in the periodic form.
 *
 * <p>Source: F. J. Harris, On the use of windows for harmonic analysis with the discrete Fourier transform, Proc. IEEE
 * 66(1) 51-83, 1978, Table 1; the flat top HFT90D: G. Heinzel, A. Ruediger, R. Schilling, Spectrum and spectral density
 * estimation by the DFT, 2002, window appendix. Coefficients from memory, confirmed by the figures of merit they give.
 */
public enum CosineWindow {
    RECTANGULAR(1),
    HANN(0.5, 0.5),
    BLACKMAN_HARRIS_4(0.35875, 0.48829, 0.14128, 0.01168),
    FLAT_TOP_90(1, 1.942604, 1.340318, 0.440811, 0.043097);

    private final double[] coefficients;

    CosineWindow(double... coefficients) {
        this.coefficients = coefficients;
    }

    /** Number of cosine terms, the constant one included. */
    public int terms() {
        return coefficients.length;
    }

    /** Coefficient a[k]. */
    public double coefficient(int term) {
        return coefficients[term];
    }
}
