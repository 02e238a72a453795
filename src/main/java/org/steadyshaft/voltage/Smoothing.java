package org.steadyshaft.voltage;

/** A Hann-weighted running mean; at the ends the values are held. */
public final class Smoothing {
    /** From this half width on running sums are the cheaper way. */
    private static final int SHORT_HALF = 8;

    private static final int FRESH = 4096;

    private Smoothing() {}

    /**
     * The same on what the straight line from the first to the last value leaves, drawn on beyond the ends as their mirror through the end
     * points: neither a trend nor one that changes is bent at the ends.
     */
    public static double[] overLine(double[] values, int half) {
        int n = values.length;
        if (half < 1 || n == 0) {
            return values.clone();
        }
        double slope = n > 1 ? (values[n - 1] - values[0]) / (n - 1) : 0;
        double[] padded = new double[n + 2 * half];
        for (int i = 0; i < n; i++) {
            padded[half + i] = values[i] - values[0] - slope * i;
        }
        for (int i = 1; i <= half; i++) {
            int inside = Math.min(n - 1, i);
            padded[half - i] = 2 * padded[half] - padded[half + inside];
            padded[half + n - 1 + i] = 2 * padded[half + n - 1] - padded[half + n - 1 - inside];
        }
        double[] smooth = smooth(padded, half);
        for (int i = 0; i < n; i++) {
            smooth[i] += values[0] + slope * i;
        }
        return smooth;
    }

    /**
     * The same, with what it takes off smoothed once more and put back: bends of the second and third power pass whole, at the price of more
     * of what is fast (twicing, Tukey 1977).
     */
    public static double[] overCurve(double[] values, int half) {
        double[] smooth = overLine(values, half);
        double[] left = new double[values.length];
        for (int i = 0; i < left.length; i++) {
            left[i] = values[i] - smooth[i];
        }
        double[] back = overLine(left, half);
        for (int i = 0; i < left.length; i++) {
            smooth[i] += back[i];
        }
        return smooth;
    }

    /** @param half places on either side; 0 changes nothing */
    public static double[] hann(double[] values, int half) {
        if (half < 1 || values.length == 0) {
            return values.clone();
        }
        double[] padded = new double[values.length + 2 * half];
        for (int i = 0; i < padded.length; i++) {
            padded[i] = values[Math.max(0, Math.min(values.length - 1, i - half))];
        }
        return smooth(padded, half);
    }

    private static double[] smooth(double[] padded, int half) {
        return half < SHORT_HALF ? byTaps(padded, half) : bySums(padded, half);
    }

    private static double[] byTaps(double[] padded, int half) {
        double[] weight = new double[2 * half + 1];
        double sum = 0;
        for (int j = 0; j < weight.length; j++) {
            weight[j] = 0.5 - 0.5 * Math.cos(Math.PI * (j + 1) / (half + 1));
            sum += weight[j];
        }
        double[] smooth = new double[padded.length - 2 * half];
        for (int j = 0; j < weight.length; j++) {
            double w = weight[j] / sum;
            for (int i = 0; i < smooth.length; i++) {
                smooth[i] += w * padded[i + j];
            }
        }
        return smooth;
    }

    /**
     * The same by running sums: one of the values, one of the values on a wave of the window's length; a step adds the value that comes and
     * takes off the one that goes. The sums begin anew after every {@value #FRESH} steps, so rounding stays below 1e-12 of the values.
     */
    private static double[] bySums(double[] padded, int half) {
        double turn = Math.PI / (half + 1);
        double stepRe = Math.cos(turn);
        double stepIm = Math.sin(turn);
        int width = 2 * half + 1;
        double[] smooth = new double[padded.length - 2 * half];
        double plain = 0;
        double re = 0;
        double im = 0;
        for (int i = 0; i < smooth.length; i++) {
            if (i % FRESH == 0) {
                plain = 0;
                re = 0;
                im = 0;
                for (int j = 0; j < width; j++) {
                    plain += padded[i + j];
                    re += padded[i + j] * Math.cos(turn * (j - half));
                    im += padded[i + j] * Math.sin(turn * (j - half));
                }
            } else {
                double gone = padded[i - 1];
                double come = padded[i + width - 1];
                plain += come - gone;
                // the wave stands at -half for the value that goes, and at half + 1 for the one that comes, before all
                // turn back by a step
                double x = re + gone * stepRe - come;
                double y = im + gone * stepIm;
                re = x * stepRe + y * stepIm;
                im = y * stepRe - x * stepIm;
            }
            smooth[i] = (plain + re) / (2 * (half + 1));
        }
        return smooth;
    }
}
