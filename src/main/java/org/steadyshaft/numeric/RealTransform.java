package org.steadyshaft.numeric;

import org.jtransforms.fft.DoubleFFT_1D;
import org.visnow.jlargearrays.ConcurrencyUtils;

/**
 * The discrete Fourier transform of real data, X[k] = sum over n of x[n] exp(-j 2 pi k n / N), by JTransforms on one
 * thread: the batch is parallel by recordings, and one thread gives the same bytes every time. An instance may be used
 * by one thread at a time.
 */
public final class RealTransform {
    static {
        ConcurrencyUtils.setNumberOfThreads(1);
    }

    private final int length;
    private final DoubleFFT_1D transform;

    /** @param length an even number of samples, at least 4; powers of two are fast */
    public RealTransform(int length) {
        if (length < 4 || length % 2 != 0) {
            throw new IllegalArgumentException("transform of " + length + " samples; expected an even number from 4");
        }
        this.length = length;
        this.transform = new DoubleFFT_1D(length);
    }

    public int length() {
        return length;
    }

    /**
     * Transforms in place. Afterwards entry 2k holds the real and 2k + 1 the imaginary part of X[k] for k = 1 to N/2 - 1;
     * entry 0 holds X[0] and entry 1 holds X[N/2], which are real.
     */
    public void forward(double[] data) {
        transform.realForward(data);
    }

    /** Undoes {@link #forward}, scaled so that both together change nothing. */
    public void inverse(double[] packed) {
        transform.realInverse(packed, true);
    }

    /** Squared magnitudes |X[k]|^2 of a transformed array for k = 0 to N/2, or as many of them as {@code power} holds. */
    public void power(double[] packed, double[] power) {
        int half = length / 2;
        power[0] = packed[0] * packed[0];
        if (power.length > half) {
            power[half] = packed[1] * packed[1];
        }
        int end = Math.min(half, power.length);
        for (int k = 1; k < end; k++) {
            power[k] = packed[2 * k] * packed[2 * k] + packed[2 * k + 1] * packed[2 * k + 1];
        }
    }

    /** The smallest power of two that is not below {@code value}. */
    public static int powerOfTwoFrom(double value) {
        if (!(value <= 1 << 30)) {
            throw new IllegalArgumentException("no power of two from " + value + " fits");
        }
        int power = 4;
        while (power < value) {
            power <<= 1;
        }
        return power;
    }
}
