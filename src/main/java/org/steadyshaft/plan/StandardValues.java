package org.steadyshaft.plan;

/** Values that resistors are made in: the E12 series of IEC 60063 (the twelve numbers are from memory; they are on every box of parts). */
final class StandardValues {
    private static final double[] E12 = {1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2};

    private StandardValues() {}

    /** The largest value that is no larger; above 0. */
    static double atMost(double ohms) {
        double decade = Math.pow(10, Math.floor(Math.log10(ohms) + 1e-9));
        double best = 0.1 * decade * E12[E12.length - 1];
        for (double step : E12) {
            if (step * decade <= ohms * (1 + 1e-9)) {
                best = step * decade;
            }
        }
        return best;
    }
}
