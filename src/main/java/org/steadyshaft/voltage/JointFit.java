package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * One least-squares step for all pieces together: the turn's voltage is common to them, the columns are each piece's own. The columns are
 * eliminated piece by piece (Schur's complement), so the work grows with the pieces, not with the square of all unknowns.
 */
final class JointFit {
    /** Added to each unknown's own sum of squares, as a share of it: unknowns that nothing tells apart stay small. */
    private static final double RIDGE = 1e-9;

    /** Correction of cos and sin of each order. */
    final double[] turn;

    /** Correction of each piece's columns. */
    final List<double[]> columns = new ArrayList<>();

    /** Variance of each piece's columns for noise of variance 1. */
    final List<double[]> variance = new ArrayList<>();

    /** Variance as a multiple of what it would be if the column stood alone; 1 or more. */
    final List<double[]> inflation = new ArrayList<>();

    /** @param pieces at least one; all with as many orders */
    JointFit(List<PieceSums> pieces) {
        int size = 2 * pieces.get(0).orders;
        double[][] square = new double[size][size];
        double[] right = new double[size];
        List<Eliminated> eliminated = new ArrayList<>();
        for (PieceSums piece : pieces) {
            addTurn(piece, square);
            Eliminated one = new Eliminated(piece);
            one.takeOff(square, right);
            eliminated.add(one);
        }
        double[] scale = scale(square);
        DecompositionSolver solver = solver(square, scale);
        RealVector solution = solver.solve(new ArrayRealVector(scaled(right, scale), false));
        this.turn = scaled(solution.toArray(), scale);
        for (Eliminated one : eliminated) {
            one.finish(turn, solver, scale, this);
        }
    }

    /** Sums of theta'^2 cos a cos b and so on, from those of sum and difference of the orders. */
    private static void addTurn(PieceSums piece, double[][] square) {
        double[] c = piece.speedCosine;
        double[] s = piece.speedSine;
        for (int a = 1; a <= piece.orders; a++) {
            for (int b = 1; b <= piece.orders; b++) {
                double cosDifference = c[Math.abs(a - b)];
                double sinDifference = a >= b ? s[a - b] : -s[b - a];
                square[2 * a - 2][2 * b - 2] += 0.5 * (cosDifference + c[a + b]);
                square[2 * a - 1][2 * b - 1] += 0.5 * (cosDifference - c[a + b]);
                square[2 * a - 2][2 * b - 1] += 0.5 * (s[a + b] - sinDifference);
                square[2 * a - 1][2 * b - 2] += 0.5 * (s[a + b] + sinDifference);
            }
        }
    }

    private static double[] scale(double[][] square) {
        double[] scale = new double[square.length];
        for (int i = 0; i < scale.length; i++) {
            scale[i] = square[i][i] > 0 ? 1 / Math.sqrt(square[i][i]) : 1;
        }
        return scale;
    }

    private static double[] scaled(double[] values, double[] scale) {
        double[] out = new double[values.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = values[i] * scale[i];
        }
        return out;
    }

    private static DecompositionSolver solver(double[][] square, double[] scale) {
        int n = square.length;
        double[][] unit = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double value = 0.5 * (square[i][j] + square[j][i]) * scale[i] * scale[j];
                unit[i][j] = value;
                unit[j][i] = value;
            }
            unit[i][i] = (square[i][i] > 0 ? 1 : 0) + RIDGE;
        }
        return new CholeskyDecomposition(new Array2DRowRealMatrix(unit, false), 1e-6, 1e-14).getSolver();
    }

    /** A piece with its own columns eliminated. */
    private static final class Eliminated {
        private final PieceSums sums;
        private final double[] scale;
        private final DecompositionSolver solver;

        /** Columns that the turn's voltage would move, by how much: inverse times cross. */
        private final RealMatrix lever;

        private final double[] alone;

        Eliminated(PieceSums sums) {
            this.sums = sums;
            this.scale = JointFit.scale(sums.square);
            this.solver = JointFit.solver(sums.square, scale);
            RealMatrix cross = new Array2DRowRealMatrix(sums.columns, 2 * sums.orders);
            for (int i = 0; i < sums.columns; i++) {
                cross.setRow(i, times(sums.cross[i], scale[i]));
            }
            RealMatrix solved = solver.solve(cross);
            for (int i = 0; i < sums.columns; i++) {
                solved.setRow(i, times(solved.getRow(i), scale[i]));
            }
            this.lever = solved;
            this.alone = scaled(
                    solver.solve(new ArrayRealVector(scaled(sums.right, scale), false))
                            .toArray(),
                    scale);
        }

        private static double[] times(double[] row, double factor) {
            double[] out = new double[row.length];
            for (int i = 0; i < out.length; i++) {
                out[i] = factor * row[i];
            }
            return out;
        }

        void takeOff(double[][] square, double[] right) {
            int size = right.length;
            for (int a = 0; a < size; a++) {
                double[] into = square[a];
                right[a] += sums.turnRight[a];
                for (int i = 0; i < sums.columns; i++) {
                    double cross = sums.cross[i][a];
                    right[a] -= cross * alone[i];
                    for (int b = 0; b < size; b++) {
                        into[b] -= cross * lever.getEntry(i, b);
                    }
                }
            }
        }

        void finish(double[] turn, DecompositionSolver turnSolver, double[] turnScale, JointFit into) {
            int n = sums.columns;
            double[] columns = new double[n];
            double[] variance = new double[n];
            double[] inflation = new double[n];
            RealMatrix own = solver.getInverse();
            RealMatrix moved = new Array2DRowRealMatrix(turn.length, n);
            for (int i = 0; i < n; i++) {
                double shift = 0;
                for (int a = 0; a < turn.length; a++) {
                    shift += lever.getEntry(i, a) * turn[a];
                    moved.setEntry(a, i, lever.getEntry(i, a) * turnScale[a]);
                }
                columns[i] = alone[i] - shift;
            }
            RealMatrix spread = turnSolver.solve(moved);
            for (int i = 0; i < n; i++) {
                double byTurn = 0;
                for (int a = 0; a < turn.length; a++) {
                    byTurn += moved.getEntry(a, i) * spread.getEntry(a, i);
                }
                variance[i] = own.getEntry(i, i) * scale[i] * scale[i] + byTurn;
                inflation[i] = variance[i] * sums.square[i][i];
            }
            into.columns.add(columns);
            into.variance.add(variance);
            into.inflation.add(inflation);
        }
    }
}
