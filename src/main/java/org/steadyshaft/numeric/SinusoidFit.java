package org.steadyshaft.numeric;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealVector;

/**
 * A sine of known frequency and an offset through unevenly spaced values by weighted least squares: the three-parameter fit
 * of IEEE Std 1057, y = offset + cosine cos(2 pi f t) + sine sin(2 pi f t).
 *
 * @param offset constant part
 * @param cosine amplitude of the cosine
 * @param sine amplitude of the sine
 */
public record SinusoidFit(double offset, double cosine, double sine) {
    public SinusoidFit {
        if (!Double.isFinite(offset) || !Double.isFinite(cosine) || !Double.isFinite(sine)) {
            throw new IllegalArgumentException("fit " + offset + ", " + cosine + ", " + sine);
        }
    }

    /** Weighted values to be fitted; index 0 to count - 1. */
    public interface Values {
        int count();

        /** Time from the fit's own zero [s]. */
        double timeSeconds(int index);

        double value(int index);

        /** Weight; 0 leaves a value out. */
        double weight(int index);
    }

    /**
     * Fits by normal equations, which are well conditioned where the values span a period or more.
     *
     * @param hz frequency of the sine; above 0
     * @return the fit; all zero where the values do not determine it
     */
    public static SinusoidFit of(Values values, double hz) {
        double[][] sums = new double[3][3];
        double[] right = new double[3];
        double[] basis = new double[3];
        for (int i = 0; i < values.count(); i++) {
            double weight = values.weight(i);
            if (weight > 0) {
                double angle = 2 * Math.PI * hz * values.timeSeconds(i);
                basis[0] = 1;
                basis[1] = Math.cos(angle);
                basis[2] = Math.sin(angle);
                for (int r = 0; r < 3; r++) {
                    right[r] += weight * basis[r] * values.value(i);
                    for (int c = 0; c < 3; c++) {
                        sums[r][c] += weight * basis[r] * basis[c];
                    }
                }
            }
        }
        return solve(sums, right);
    }

    /**
     * The fit of {@link #of} to a part of rows whose angles' cosines and sines are known ({@link Turns} fills them in): some ten
     * times as fast. One pass of plain sums.
     *
     * @param weight 0 leaves a value out
     * @param from first index of the part
     * @param to end of the part
     */
    public static SinusoidFit of(double[] value, double[] weight, double[] cosine, double[] sine, int from, int to) {
        double weights = 0;
        double cosines = 0;
        double sines = 0;
        double cosineSquares = 0;
        double products = 0;
        double sineSquares = 0;
        double values = 0;
        double cosineValues = 0;
        double sineValues = 0;
        for (int i = from; i < to; i++) {
            double ofCosine = weight[i] * cosine[i];
            double ofSine = weight[i] * sine[i];
            weights += weight[i];
            cosines += ofCosine;
            sines += ofSine;
            cosineSquares += ofCosine * cosine[i];
            products += ofCosine * sine[i];
            sineSquares += ofSine * sine[i];
            values += weight[i] * value[i];
            cosineValues += ofCosine * value[i];
            sineValues += ofSine * value[i];
        }
        double[][] sums = {{weights, cosines, sines}, {cosines, cosineSquares, products}, {sines, products, sineSquares}
        };
        return solve(sums, new double[] {values, cosineValues, sineValues});
    }

    /** Solves the normal equations. */
    private static SinusoidFit solve(double[][] sums, double[] right) {
        double threshold = 1e-6 * Math.max(sums[0][0], Double.MIN_NORMAL);
        QRDecomposition matrix = new QRDecomposition(new Array2DRowRealMatrix(sums, false), threshold);
        if (!matrix.getSolver().isNonSingular()) {
            return new SinusoidFit(0, 0, 0);
        }
        RealVector solution = matrix.getSolver().solve(new ArrayRealVector(right, false));
        return new SinusoidFit(solution.getEntry(0), solution.getEntry(1), solution.getEntry(2));
    }

    public double amplitude() {
        return Math.hypot(cosine, sine);
    }

    /** The sine without the offset at a time from the fit's zero. */
    public double sineAt(double hz, double timeSeconds) {
        double angle = 2 * Math.PI * hz * timeSeconds;
        return cosine * Math.cos(angle) + sine * Math.sin(angle);
    }
}
