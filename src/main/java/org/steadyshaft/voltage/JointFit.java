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
 * The least-squares step for all pieces together: the turn's voltage is common to them, the columns are each piece's own. The columns are
 * eliminated piece by piece (Schur's complement), so the work grows with the pieces, not with the square of all unknowns. What depends
 * on the columns alone is worked out once; a step for another rest costs a few products.
 */
final class JointFit {
    /** Added to each unknown's own sum of squares, as a share of it: unknowns that nothing tells apart stay small. */
    private static final double RIDGE = 1e-9;

    /** Variance of each piece's columns for noise of variance 1. */
    final List<double[]> variance = new ArrayList<>();

    /** Variance as a multiple of what it would be if the column stood alone; 1 or more. */
    final List<double[]> inflation = new ArrayList<>();

    /** The same if the turn's voltage were known: what the other columns alone make of it. */
    final List<double[]> inflationByColumns = new ArrayList<>();

    private final List<Eliminated> eliminated;
    private final double[] scale;
    private final DecompositionSolver solver;

    private final TurnMemory memory;
    private final double noise;

    /**
     * @param pieces at least one; all with as many orders
     * @param memory what is known of the turn beforehand
     * @param noise variance of the noise [volts squared], against which what is known counts
     */
    JointFit(List<PieceSums> pieces, TurnMemory memory, double noise) {
        this.memory = memory;
        this.noise = noise;
        int size = 2 * pieces.get(0).orders;
        double[][] square = new double[size][size];
        this.eliminated = pieces.stream().parallel().map(Eliminated::new).toList();
        for (int p = 0; p < pieces.size(); p++) {
            addTurn(pieces.get(p), square);
            eliminated.get(p).takeOff(square);
        }
        for (int i = 0; i < size; i++) {
            square[i][i] += known(i);
        }
        this.scale = scale(square);
        this.solver = solver(square, scale);
        for (double[] one : eliminated.stream()
                .parallel()
                .map(e -> e.variance(solver, scale))
                .toList()) {
            variance.add(one);
        }
        for (int p = 0; p < pieces.size(); p++) {
            double[] times = variance.get(p).clone();
            for (int i = 0; i < times.length; i++) {
                times[i] *= pieces.get(p).square[i][i];
            }
            inflation.add(times);
            inflationByColumns.add(eliminated.get(p).inflation());
        }
    }

    /** What the rests move. */
    static final class Step {
        /** Correction of cos and sin of each order. */
        final double[] turn;

        /** Correction of each piece's columns. */
        final List<double[]> columns;

        private Step(double[] turn, List<double[]> columns) {
            this.turn = turn;
            this.columns = columns;
        }
    }

    /** What is known beforehand of an order's part, as a sum of squares; 0 where nothing is. */
    private double known(int unknown) {
        int order = unknown / 2 + 1;
        return memory.knows(order) ? noise / memory.variance(order) : 0;
    }

    /** The step for the rests of the pieces, from the turn that they were made with. */
    Step step(List<PieceRest> rests, TurnVoltage from) {
        double[] right = new double[scale.length];
        List<double[]> alone = new ArrayList<>();
        for (int p = 0; p < rests.size(); p++) {
            double[] own = eliminated.get(p).alone(rests.get(p));
            alone.add(own);
            eliminated.get(p).takeOff(rests.get(p), own, right);
        }
        for (int i = 0; i < right.length; i++) {
            int order = i / 2 + 1;
            if (memory.knows(order)) {
                double off =
                        i % 2 == 0 ? memory.cosine(order) - from.cosine(order) : memory.sine(order) - from.sine(order);
                right[i] += known(i) * off;
            }
        }
        RealVector solution = solver.solve(new ArrayRealVector(scaled(right, scale), false));
        double[] turn = scaled(solution.toArray(), scale);
        List<double[]> columns = new ArrayList<>();
        for (int p = 0; p < rests.size(); p++) {
            columns.add(eliminated.get(p).columns(alone.get(p), turn));
        }
        return new Step(turn, columns);
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

    /** One over the root of each unknown's own sum; 1 where that is 0. */
    static double[] scale(double[][] square) {
        double[] scale = new double[square.length];
        for (int i = 0; i < scale.length; i++) {
            scale[i] = square[i][i] > 0 ? 1 / Math.sqrt(square[i][i]) : 1;
        }
        return scale;
    }

    static double[] scaled(double[] values, double[] scale) {
        double[] out = new double[values.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = values[i] * scale[i];
        }
        return out;
    }

    /** Solves for the scaled unknowns. */
    static DecompositionSolver solver(double[][] square, double[] scale) {
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
        private final double[][] lever;

        Eliminated(PieceSums sums) {
            this.sums = sums;
            this.scale = JointFit.scale(sums.square);
            this.solver = JointFit.solver(sums.square, scale);
            RealMatrix cross = new Array2DRowRealMatrix(sums.columns, 2 * sums.orders);
            for (int i = 0; i < sums.columns; i++) {
                cross.setRow(i, times(sums.cross[i], scale[i]));
            }
            RealMatrix solved = solver.solve(cross);
            this.lever = new double[sums.columns][];
            for (int i = 0; i < sums.columns; i++) {
                lever[i] = times(solved.getRow(i), scale[i]);
            }
        }

        private static double[] times(double[] row, double factor) {
            double[] out = new double[row.length];
            for (int i = 0; i < out.length; i++) {
                out[i] = factor * row[i];
            }
            return out;
        }

        void takeOff(double[][] square) {
            for (int i = 0; i < sums.columns; i++) {
                double[] cross = sums.cross[i];
                double[] own = lever[i];
                for (int a = 0; a < square.length; a++) {
                    double factor = cross[a];
                    double[] into = square[a];
                    for (int b = 0; b < into.length; b++) {
                        into[b] -= factor * own[b];
                    }
                }
            }
        }

        /** What the rest would move the columns if the turn's voltage stood still. */
        double[] alone(PieceRest rest) {
            return scaled(
                    solver.solve(new ArrayRealVector(scaled(rest.right, scale), false))
                            .toArray(),
                    scale);
        }

        void takeOff(PieceRest rest, double[] alone, double[] right) {
            double[] turnRight = rest.turnRight;
            for (int a = 0; a < right.length; a++) {
                right[a] += turnRight[a];
            }
            for (int i = 0; i < sums.columns; i++) {
                for (int a = 0; a < right.length; a++) {
                    right[a] -= sums.cross[i][a] * alone[i];
                }
            }
        }

        double[] columns(double[] alone, double[] turn) {
            double[] columns = new double[alone.length];
            for (int i = 0; i < columns.length; i++) {
                double shift = 0;
                for (int a = 0; a < turn.length; a++) {
                    shift += lever[i][a] * turn[a];
                }
                columns[i] = alone[i] - shift;
            }
            return columns;
        }

        double[] inflation() {
            RealMatrix own = solver.getInverse();
            double[] inflation = new double[sums.columns];
            for (int i = 0; i < inflation.length; i++) {
                inflation[i] = own.getEntry(i, i);
            }
            return inflation;
        }

        double[] variance(DecompositionSolver turnSolver, double[] turnScale) {
            int n = sums.columns;
            double[] variance = new double[n];
            RealMatrix own = solver.getInverse();
            RealMatrix moved = new Array2DRowRealMatrix(turnScale.length, n);
            for (int i = 0; i < n; i++) {
                for (int a = 0; a < turnScale.length; a++) {
                    moved.setEntry(a, i, lever[i][a] * turnScale[a]);
                }
            }
            RealMatrix spread = turnSolver.solve(moved);
            for (int i = 0; i < n; i++) {
                double byTurn = 0;
                for (int a = 0; a < turnScale.length; a++) {
                    byTurn += moved.getEntry(a, i) * spread.getEntry(a, i);
                }
                variance[i] = own.getEntry(i, i) * scale[i] * scale[i] + byTurn;
            }
            return variance;
        }
    }
}
