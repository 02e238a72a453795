package org.steadyshaft.numeric;

import java.util.Arrays;

/**
 * Takes every second, fourth or eighth sample of a low-passed stream, without delay: a symmetric low-pass (windowed sinc, Kaiser's
 * window) in polyphase form. The response is 1 within 1e-6 up to {@link #cleanShare} of the lower rate, and what folds into that
 * band is 100 dB down and more (checked in DecimatorTest). Source of the window: J. F. Kaiser, Nonrecursive digital filter design using the
 * I0-sinh window function, Proc. IEEE Int. Symp. Circuits and Systems, 1974 (from memory).
 *
 * <p>Cost: one product for each tap of a phase and input sample. The loops run over one index of plain arrays and add four products,
 * which is the form that JDK 17 turns into vector code; a single loop over all taps is four times slower.
 */
public final class Decimator {
    /** Rows worked on at a time: phases and sums stay inside a processor's first cache. */
    private static final int ROWS = 256;

    /** Kaiser's parameter for 130 dB, a ripple of 3e-7 to either side: 0.1102 (A - 8.7). */
    private static final double BETA = 13.4;

    /** Width of the edge, in units of the lower rate, times the taps of a phase: (A - 8) / (2.285 * 2 pi) for 130 dB. */
    private static final double EDGE = 8.5;

    private final int factor;
    private final int taps;
    private final double[] weights;
    private final double[][] phases;
    private final double[] part;
    private final double[] moved = new double[ROWS];
    private final double[] sum = new double[ROWS];

    /**
     * @param factor 2, 4 or 8
     * @param taps weights a phase, even, 10 or more: the steeper the edge, the more
     */
    public Decimator(int factor, int taps) {
        if ((factor != 2 && factor != 4 && factor != 8) || taps < 10 || taps % 2 != 0) {
            throw new IllegalArgumentException("factor " + factor + ", " + taps + " taps a phase");
        }
        this.factor = factor;
        this.taps = taps;
        this.weights = design(factor, taps);
        this.phases = new double[factor][ROWS + taps];
        this.part = new double[ROWS + taps];
    }

    /** Windowed sinc with its cut-off at half the lower rate; the middle stands at index taps / 2 * factor, the sum is 1. */
    private static double[] design(int factor, int taps) {
        double[] h = new double[taps * factor];
        int middle = taps / 2 * factor;
        int half = middle - 1;
        double total = 0;
        for (int k = -half; k <= half; k++) {
            double angle = Math.PI * k / factor;
            double place = (double) k / (half + 1);
            double window = bessel(BETA * Math.sqrt(1 - place * place)) / bessel(BETA);
            h[middle + k] = (k == 0 ? 1 : Math.sin(angle) / angle) * window;
            total += h[middle + k];
        }
        for (int i = 0; i < h.length; i++) {
            h[i] /= total;
        }
        return h;
    }

    /** Modified Bessel function of the first kind and order 0, by its series. */
    private static double bessel(double x) {
        double sum = 1;
        double term = 1;
        for (int k = 1; term > 1e-17 * sum; k++) {
            term *= x * x / 4 / k / k;
            sum += term;
        }
        return sum;
    }

    /** Up to this share of the lower rate the stream is kept as it is, with so many taps a phase. */
    public static double cleanShare(int taps) {
        return 0.5 * (1 - EDGE / taps);
    }

    /** Samples of the stream needed before the place of an output, and after it. */
    public int reach() {
        return taps / 2 * factor;
    }

    /** Gain at a frequency given as a share of the higher rate; real, since the weights are symmetric. */
    public double response(double share) {
        double gain = 0;
        for (int i = 0; i < weights.length; i++) {
            gain += weights[i] * Math.cos(2 * Math.PI * share * (i - reach()));
        }
        return gain;
    }

    /**
     * Writes {@code count} outputs that stand at the places at, at + factor, at + 2 factor, ... of the input.
     *
     * @param in must hold {@link #reach()} samples before the first and as many from the last place on
     */
    public void run(double[] in, int at, double[] out, int count) {
        for (int done = 0; done < count; done += ROWS) {
            int rows = Math.min(ROWS, count - done);
            rows(in, at + done * factor - reach(), rows);
            System.arraycopy(sum, 0, out, done, rows);
        }
    }

    /** Output r is the sum over taps t and phases p of weight [t factor + p] times sample [from + (r + t) factor + p]. */
    private void rows(double[] in, int from, int rows) {
        int wide = rows + taps - 1;
        for (int p = 0; p < factor; p++) {
            split(in, from + p, factor, phases[p], wide);
        }
        Arrays.fill(sum, 0, rows, 0);
        for (int t = 0; t < taps; t++) {
            int w = t * factor;
            if (factor == 2) {
                two(part, phases[0], phases[1], weights[w], weights[w + 1], wide);
            } else {
                four(part, phases, 0, weights, w, wide);
            }
            if (factor == 8) {
                addFour(part, phases, 4, weights, w + 4, wide);
            }
            System.arraycopy(part, t, moved, 0, rows);
            add(sum, moved, rows);
        }
    }

    private static void split(double[] in, int from, int step, double[] out, int count) {
        for (int m = 0, i = from; m < count; m++, i += step) {
            out[m] = in[i];
        }
    }

    private static void two(double[] out, double[] a, double[] b, double k, double l, int count) {
        for (int m = 0; m < count; m++) {
            out[m] = k * a[m] + l * b[m];
        }
    }

    private static void four(double[] out, double[][] phases, int p, double[] weights, int w, int count) {
        double[] a = phases[p];
        double[] b = phases[p + 1];
        double[] c = phases[p + 2];
        double[] d = phases[p + 3];
        double k = weights[w];
        double l = weights[w + 1];
        double q = weights[w + 2];
        double r = weights[w + 3];
        for (int m = 0; m < count; m++) {
            out[m] = k * a[m] + l * b[m] + q * c[m] + r * d[m];
        }
    }

    private static void addFour(double[] out, double[][] phases, int p, double[] weights, int w, int count) {
        double[] a = phases[p];
        double[] b = phases[p + 1];
        double[] c = phases[p + 2];
        double[] d = phases[p + 3];
        double k = weights[w];
        double l = weights[w + 1];
        double q = weights[w + 2];
        double r = weights[w + 3];
        for (int m = 0; m < count; m++) {
            out[m] += k * a[m] + l * b[m] + q * c[m] + r * d[m];
        }
    }

    private static void add(double[] out, double[] a, int count) {
        for (int m = 0; m < count; m++) {
            out[m] += a[m];
        }
    }
}
