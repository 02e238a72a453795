package org.steadyshaft.voltage;

/** A Hann-weighted running mean; at the ends the values are held. */
public final class Smoothing {
    private Smoothing() {}

    /** The same on what the straight line from the first to the last value leaves, so that a trend is not bent at the ends. */
    public static double[] overLine(double[] values, int half) {
        int n = values.length;
        double[] rest = new double[n];
        double slope = n > 1 ? (values[n - 1] - values[0]) / (n - 1) : 0;
        for (int i = 0; i < n; i++) {
            rest[i] = values[i] - values[0] - slope * i;
        }
        double[] smooth = hann(rest, half);
        for (int i = 0; i < n; i++) {
            smooth[i] += values[0] + slope * i;
        }
        return smooth;
    }

    /** @param half places on either side; 0 changes nothing */
    public static double[] hann(double[] values, int half) {
        if (half < 1 || values.length == 0) {
            return values.clone();
        }
        double[] weight = new double[2 * half + 1];
        double sum = 0;
        for (int j = 0; j < weight.length; j++) {
            weight[j] = 0.5 - 0.5 * Math.cos(Math.PI * (j + 1) / (half + 1));
            sum += weight[j];
        }
        double[] padded = new double[values.length + 2 * half];
        for (int i = 0; i < padded.length; i++) {
            padded[i] = values[Math.max(0, Math.min(values.length - 1, i - half))];
        }
        double[] smooth = new double[values.length];
        for (int j = 0; j < weight.length; j++) {
            double w = weight[j] / sum;
            for (int i = 0; i < smooth.length; i++) {
                smooth[i] += w * padded[i + j];
            }
        }
        return smooth;
    }
}
