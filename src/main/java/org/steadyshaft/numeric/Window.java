package org.steadyshaft.numeric;

import org.steadyshaft.published.CosineWindow;

/** A sampled window of fixed length, periodic form. */
public final class Window {
    private final double[] weights;
    private final double sum;
    private final double sumOfSquares;

    private Window(double[] weights) {
        this.weights = weights;
        double total = 0;
        double squares = 0;
        for (double weight : weights) {
            total += weight;
            squares += weight * weight;
        }
        this.sum = total;
        this.sumOfSquares = squares;
    }

    /**
     * Samples a window.
     *
     * @param length number of samples; at least 1
     */
    public static Window of(CosineWindow shape, int length) {
        double[] weights = new double[length];
        for (int n = 0; n < length; n++) {
            double weight = 0;
            double sign = 1;
            for (int k = 0; k < shape.terms(); k++) {
                weight += sign * shape.coefficient(k) * Math.cos(2 * Math.PI * k * n / length);
                sign = -sign;
            }
            weights[n] = weight;
        }
        return new Window(weights);
    }

    public int length() {
        return weights.length;
    }

    public double weight(int index) {
        return weights[index];
    }

    /** Sum of the weights: the height of a line of amplitude A in the spectrum is A / 2 times this. */
    public double sum() {
        return sum;
    }

    /** Sum of the squared weights: white noise of variance v has the mean power v times this in every bin. */
    public double sumOfSquares() {
        return sumOfSquares;
    }

    /** Equivalent noise bandwidth in bins: N times the sum of squares over the square of the sum (Harris 1978). */
    public double noiseBandwidthBins() {
        return weights.length * sumOfSquares / (sum * sum);
    }

    /** Fills {@code out} with the weighted values of a frame, its mean taken off first. */
    public void applyCentred(double[] frame, double[] out) {
        double mean = 0;
        for (double value : frame) {
            mean += value;
        }
        apply(frame, 0, mean / frame.length, out);
    }

    /** Fills {@code out} with {@code (values[from + i] - offset) * weight(i)}. */
    public void apply(double[] values, int from, double offset, double[] out) {
        for (int i = 0; i < weights.length; i++) {
            out[i] = (values[from + i] - offset) * weights[i];
        }
    }
}
