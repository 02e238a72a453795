package org.steadyshaft.voltage;

import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.steadyshaft.numeric.OrthogonalFit;

/** Reads the two parts of a line apart, piece by piece: what it does to the angle, and what it does to the level. */
final class LineParts {
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

    /** The parts of a line of the fit in each piece; the fit must have taken the line as it would come through a true recording. */
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
        ColumnBlock ofAngle = new ColumnBlock(piece, fit.turn(), new Columns(Columns.Frequencies.NONE, alone, ANGLE));
        ColumnBlock ofLevel = new ColumnBlock(piece, fit.turn(), new Columns(Columns.Frequencies.NONE, alone, LEVEL));
        double[][] column = {ofAngle.column[1], ofAngle.column[2], ofLevel.column[1], ofLevel.column[2]};
        double[] rest = fit.rests().get(p);
        double[][] square = new double[4][4];
        double[] right = new double[4];
        double[] left = new double[Columns.BLOCK];
        for (int from = 0; from < rest.length; from += Columns.BLOCK) {
            int count = ofAngle.fill(from);
            ofLevel.fill(from);
            System.arraycopy(rest, from, left, 0, count);
            for (int i = 0; i < 4; i++) {
                right[i] += OrthogonalFit.dot(column[i], left, count);
                for (int j = 0; j <= i; j++) {
                    square[i][j] += OrthogonalFit.dot(column[i], column[j], count);
                    square[j][i] = square[i][j];
                }
            }
        }
        double[] scale = JointFit.scale(square);
        DecompositionSolver solver = JointFit.solver(square, scale);
        RealVector moved = solver.solve(new ArrayRealVector(JointFit.scaled(right, scale), false));
        double[] apart = JointFit.scaled(moved.toArray(), scale);
        RealMatrix inverse = solver.getInverse();
        double[] variance = new double[4];
        for (int i = 0; i < 4; i++) {
            variance[i] = inverse.getEntry(i, i) * scale[i] * scale[i];
        }
        double cosine = fit.coefficient(p, columns.line(line));
        double sine = fit.coefficient(p, columns.line(line) + 1);
        return new Parts(
                hz,
                new Complex(cosine + apart[0], -sine - apart[1]),
                new Complex(cosine + apart[2], -sine - apart[3]),
                0.5 * (variance[0] + variance[1]),
                0.5 * (variance[2] + variance[3]));
    }
}
