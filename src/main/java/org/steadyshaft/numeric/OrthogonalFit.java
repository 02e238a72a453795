package org.steadyshaft.numeric;

import java.util.ArrayList;
import java.util.List;

/**
 * Least squares for small, dense problems whose columns come one by one, by the modified Gram-Schmidt method: each column is made
 * orthogonal to those before it, and what the target has of it is taken out. So the residual is known after every column, and what
 * further columns would leave can be asked without adding them. A column that the others already hold is ignored (coefficient 0). Cost:
 * rows times columns for each column.
 */
public final class OrthogonalFit {
    /** A column of which less than this share is new is held by the others already. */
    private static final double LEAST_NEW = 1e-6;

    /** A column that keeps more than this share of its length is orthogonal enough after one pass (Daniel and others 1976, from memory). */
    private static final double ONE_PASS = 0.5;

    private final int rows;
    private final double[] residual;
    private final List<double[]> units = new ArrayList<>();
    private final List<double[]> upper = new ArrayList<>();
    private final List<Double> parts = new ArrayList<>();
    private double energy;

    /** @param target values to be fitted; copied */
    public OrthogonalFit(double[] target) {
        this.rows = target.length;
        this.residual = target.clone();
        this.energy = dot(residual, residual);
    }

    /** Adds a column, which is used up as work space. */
    public void add(double[] column) {
        double[] factors = new double[units.size() + 1];
        double before = Math.sqrt(dot(column, column));
        project(column, factors);
        double norm = Math.sqrt(dot(column, column));
        if (norm > LEAST_NEW * before && norm < ONE_PASS * before) {
            project(column, factors);
            norm = Math.sqrt(dot(column, column));
        }
        boolean fresh = norm > LEAST_NEW * before && before > 0;
        double part = 0;
        if (fresh) {
            double scale = 1 / norm;
            for (int i = 0; i < rows; i++) {
                column[i] *= scale;
            }
            part = dot(column, residual);
            subtract(residual, column, part);
            energy = dot(residual, residual);
        }
        factors[units.size()] = fresh ? norm : 0;
        units.add(fresh ? column : new double[0]);
        upper.add(factors);
        parts.add(part);
    }

    private void project(double[] column, double[] factors) {
        for (int j = 0; j < units.size(); j++) {
            double[] unit = units.get(j);
            if (unit.length > 0) {
                double share = dot(unit, column);
                factors[j] += share;
                subtract(column, unit, share);
            }
        }
    }

    /** Takes out of a column what the columns already added hold of it, in place. */
    public void clear(double[] column) {
        project(column, new double[units.size()]);
    }

    /** What a cleared column takes off the residual's energy, alone; 0 for one that is held already. */
    public double gain(double[] cleared) {
        double norm = dot(cleared, cleared);
        double share = dot(cleared, residual);
        return norm > 0 ? share * share / norm : 0;
    }

    /** Scalar product of a cleared column with the residual. */
    public double share(double[] cleared) {
        return dot(cleared, residual);
    }

    /** Sum of the squared residuals. */
    public double energy() {
        return energy;
    }

    public int columns() {
        return units.size();
    }

    /** A copy of what is left of the target. */
    public double[] residual() {
        return residual.clone();
    }

    /** Coefficients of the columns in the order in which they were added. */
    public double[] coefficients() {
        int n = units.size();
        double[] solution = new double[n];
        for (int i = n - 1; i >= 0; i--) {
            double sum = parts.get(i);
            for (int j = i + 1; j < n; j++) {
                sum -= upper.get(j)[i] * solution[j];
            }
            double pivot = upper.get(i)[i];
            solution[i] = pivot > 0 ? sum / pivot : 0;
        }
        return solution;
    }

    /** Sum of products of two arrays of the same length; eight sums side by side, as one would wait for itself. */
    public static double dot(double[] a, double[] b) {
        return dot(a, b, a.length);
    }

    /** The same of the first so many values. */
    public static double dot(double[] a, double[] b, int count) {
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        double s4 = 0;
        double s5 = 0;
        double s6 = 0;
        double s7 = 0;
        int whole = count & -8;
        for (int i = 0; i < whole; i += 8) {
            s0 += a[i] * b[i];
            s1 += a[i + 1] * b[i + 1];
            s2 += a[i + 2] * b[i + 2];
            s3 += a[i + 3] * b[i + 3];
            s4 += a[i + 4] * b[i + 4];
            s5 += a[i + 5] * b[i + 5];
            s6 += a[i + 6] * b[i + 6];
            s7 += a[i + 7] * b[i + 7];
        }
        for (int i = whole; i < count; i++) {
            s0 += a[i] * b[i];
        }
        return ((s0 + s1) + (s2 + s3)) + ((s4 + s5) + (s6 + s7));
    }

    private static void subtract(double[] from, double[] what, double times) {
        for (int i = 0; i < from.length; i++) {
            from[i] -= times * what[i];
        }
    }
}
