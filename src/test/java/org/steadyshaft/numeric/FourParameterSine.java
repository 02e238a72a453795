package org.steadyshaft.numeric;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealVector;

/**
 * A sine of unknown frequency by least squares, the plain form for comparison: Gauss-Newton on y = offset + cosine
 * cos(2 pi f t) + sine sin(2 pi f t), the four-parameter fit of IEEE Std 1057 (from memory). Weights are taken as 1.
 */
record FourParameterSine(double frequencyHz, SinusoidFit sine) {
    private static final int MOST_STEPS = 50;
    private static final double STILL = 1e-11;

    /**
     * @param startHz within about half of 1 / duration of the frequency
     * @throws IllegalStateException if the steps do not come to rest
     */
    static FourParameterSine of(SinusoidFit.Values values, double startHz) {
        double hz = startHz;
        for (int step = 0; step < MOST_STEPS; step++) {
            SinusoidFit fit = SinusoidFit.of(values, hz);
            double moveHz = moveHz(values, hz, fit);
            hz += moveHz;
            if (Math.abs(moveHz) < STILL * hz) {
                return new FourParameterSine(hz, SinusoidFit.of(values, hz));
            }
        }
        throw new IllegalStateException("no rest from " + startHz + " Hz, at last " + hz + " Hz");
    }

    /** The fourth column is the slope of the fitted sine by the frequency. */
    private static double moveHz(SinusoidFit.Values values, double hz, SinusoidFit fit) {
        double[][] columns = new double[values.count()][];
        double[] right = new double[values.count()];
        for (int i = 0; i < values.count(); i++) {
            double time = values.timeSeconds(i);
            double cos = Math.cos(2 * Math.PI * hz * time);
            double sin = Math.sin(2 * Math.PI * hz * time);
            double slope = 2 * Math.PI * time * (fit.sine() * cos - fit.cosine() * sin);
            columns[i] = new double[] {cos, sin, 1, slope};
            right[i] = values.value(i);
        }
        RealVector solution = new QRDecomposition(new Array2DRowRealMatrix(columns, false))
                .getSolver()
                .solve(new ArrayRealVector(right, false));
        return solution.getEntry(3);
    }
}
