package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.junit.jupiter.api.Test;

/** The two small least-squares solvers against a library's QR decomposition. */
class LeastSquaresTest {
    @Test
    void bothGiveWhatTheLibraryGives() {
        Random random = new Random(5);
        int rows = 120;
        int columns = 7;
        double[][] a = new double[rows][columns];
        double[] y = new double[rows];
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                a[i][j] = random.nextGaussian() + (j > 0 ? 0.5 * a[i][j - 1] : 0);
            }
            y[i] = random.nextGaussian();
        }
        double[] expected = new QRDecomposition(new Array2DRowRealMatrix(a))
                .getSolver()
                .solve(new ArrayRealVector(y))
                .toArray();
        OrthogonalFit orthogonal = new OrthogonalFit(y);
        NormalFit normal = new NormalFit(columns);
        for (int j = 0; j < columns; j++) {
            double[] column = new double[rows];
            for (int i = 0; i < rows; i++) {
                column[i] = a[i][j];
            }
            orthogonal.add(column);
        }
        double squares = 0;
        for (int i = 0; i < rows; i++) {
            normal.add(a[i], y[i]);
            double left = y[i];
            for (int j = 0; j < columns; j++) {
                left -= expected[j] * a[i][j];
            }
            squares += left * left;
        }
        assertArrayEquals(expected, orthogonal.coefficients(), 1e-10);
        assertArrayEquals(expected, normal.solve(), 1e-9);
        assertEquals(squares, orthogonal.energy(), 1e-9);
    }

    @Test
    void aColumnThatIsHeldGetsNothing() {
        OrthogonalFit fit = new OrthogonalFit(new double[] {1, 2, 3, 4});
        fit.add(new double[] {1, 1, 1, 1});
        fit.add(new double[] {2, 2, 2, 2});
        fit.add(new double[] {0, 1, 2, 3});
        assertArrayEquals(new double[] {1, 0, 1}, fit.coefficients(), 1e-12);
        assertEquals(0, fit.energy(), 1e-20);
        double[] held = {3, 3, 3, 3};
        fit.clear(held);
        assertEquals(0, fit.gain(held), 1e-12);
    }
}
