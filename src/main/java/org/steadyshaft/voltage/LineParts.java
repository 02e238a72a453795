package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.steadyshaft.numeric.OrthogonalFit;

/** Reads the two parts of a line apart, piece by piece: what it does to the angle, and what it does to the level. */
final class LineParts {
    /** Two parts that nothing tells apart get large variances, and no fault. */
    private static final double RIDGE = 1e-9;

    private static final LineResponse ANGLE = new Only(Complex.ONE, Complex.ZERO);
    private static final LineResponse LEVEL = new Only(Complex.ZERO, Complex.ONE);

    private LineParts() {}

    private record Only(Complex ofAngle, Complex ofLevel) implements LineResponse {
        @Override
        public Complex angle(double hz) {
            return ofAngle;
        }

        @Override
        public Complex level(double hz) {
            return ofLevel;
        }
    }

    /**
     * A line in a piece.
     *
     * @param angle the speed's swing, as a share of its mean, that the angle's part shows
     * @param level the one that the level's part shows
     * @param angleVariance of either component of the first, for noise of variance 1
     * @param levelVariance the same of the second
     */
    record Parts(double hz, Complex angle, Complex level, double angleVariance, double levelVariance) {}

    /** The parts of a line of the fit in each piece. */
    static List<Parts> of(VoltageFit fit, int line) {
        return IntStream.range(0, fit.pieces().size())
                .parallel()
                .mapToObj(p -> of(fit, p, line))
                .toList();
    }

    private static Parts of(VoltageFit fit, int p, int line) {
        AnglePiece piece = fit.pieces().get(p);
        Columns columns = fit.columns();
        double hz = columns.lineHz().get(line);
        Columns.Frequencies alone = new Columns.Frequencies(
                new double[] {hz}, new int[] {columns.lineHz().multiple(line)});
        List<ColumnBlock> blocks = new ArrayList<>();
        for (LineResponse response : List.of(columns.response(), ANGLE, LEVEL)) {
            blocks.add(new ColumnBlock(piece, fit.turn(), new Columns(Columns.Frequencies.NONE, alone, response)));
        }
        double[] known = {0, -fit.coefficient(p, columns.line(line)), -fit.coefficient(p, columns.line(line) + 1)};
        double[] rest = fit.rests().get(p);
        double[][] square = new double[4][4];
        double[] right = new double[4];
        double[] left = new double[Columns.BLOCK];
        double[][] column = new double[4][];
        for (int from = 0; from < rest.length; from += Columns.BLOCK) {
            int count = 0;
            for (ColumnBlock block : blocks) {
                count = block.fill(from);
            }
            System.arraycopy(rest, from, left, 0, count);
            blocks.get(0).takeOff(known, left, count);
            for (int i = 0; i < 4; i++) {
                column[i] = blocks.get(1 + i / 2).column[1 + i % 2];
            }
            for (int i = 0; i < 4; i++) {
                right[i] += OrthogonalFit.dot(column[i], left, count);
                for (int j = 0; j <= i; j++) {
                    square[i][j] += OrthogonalFit.dot(column[i], column[j], count);
                    square[j][i] = square[i][j];
                }
            }
        }
        double[] scale = new double[4];
        for (int i = 0; i < 4; i++) {
            scale[i] = square[i][i] > 0 ? 1 / Math.sqrt(square[i][i]) : 0;
        }
        for (int i = 0; i < 4; i++) {
            right[i] *= scale[i];
            for (int j = 0; j < 4; j++) {
                square[i][j] *= i == j && scale[i] > 0 ? scale[i] * scale[j] * (1 + RIDGE) : scale[i] * scale[j];
            }
            square[i][i] = scale[i] > 0 ? square[i][i] : 1;
        }
        DecompositionSolver solver =
                new CholeskyDecomposition(new Array2DRowRealMatrix(square, false), 1e-6, 1e-14).getSolver();
        RealVector parts = solver.solve(new ArrayRealVector(right, false));
        RealMatrix inverse = solver.getInverse();
        for (int i = 0; i < 4; i++) {
            parts.setEntry(i, parts.getEntry(i) * scale[i]);
            inverse.setEntry(i, i, inverse.getEntry(i, i) * scale[i] * scale[i]);
        }
        return new Parts(
                hz,
                new Complex(parts.getEntry(0), -parts.getEntry(1)),
                new Complex(parts.getEntry(2), -parts.getEntry(3)),
                0.5 * (inverse.getEntry(0, 0) + inverse.getEntry(1, 1)),
                0.5 * (inverse.getEntry(2, 2) + inverse.getEntry(3, 3)));
    }
}
