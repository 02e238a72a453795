package org.steadyshaft.capture;

/**
 * Adds what is predicted from the samples before to what was coded, in place; the first {@code order} values already
 * are samples. Source: RFC 9639 sections 4.3 and 9.2.5 to 9.2.6.
 */
final class FlacPrediction {
    private FlacPrediction() {}

    /** Predicts by the polynomial of degree {@code order} - 1 through the samples before. */
    static void fixed(int order, long[] x, int count) {
        switch (order) {
            case 0 -> {}
            case 1 -> {
                for (int i = 1; i < count; i++) {
                    x[i] += x[i - 1];
                }
            }
            case 2 -> {
                for (int i = 2; i < count; i++) {
                    x[i] += 2 * x[i - 1] - x[i - 2];
                }
            }
            case 3 -> {
                for (int i = 3; i < count; i++) {
                    x[i] += 3 * (x[i - 1] - x[i - 2]) + x[i - 3];
                }
            }
            case 4 -> {
                for (int i = 4; i < count; i++) {
                    x[i] += 4 * (x[i - 1] + x[i - 3]) - 6 * x[i - 2] - x[i - 4];
                }
            }
            default -> throw new IllegalArgumentException("order " + order + "; expected 0 to 4");
        }
    }

    /** Predicts by a weighted sum, the first weight for the sample just before, divided by 2^shift and rounded down. */
    static void linear(long[] weights, int order, int shift, long[] x, int count) {
        for (int i = order; i < count; i++) {
            long sum = 0;
            for (int j = 0; j < order; j++) {
                sum += weights[j] * x[i - 1 - j];
            }
            x[i] += sum >> shift;
        }
    }
}
