package org.steadyshaft.numeric;

import java.util.ArrayList;
import java.util.List;

/**
 * Least squares for dense problems whose columns come one by one, by the normal equations with a Cholesky row for each column: what is left
 * of the target and the coefficients are known after every column. Several times cheaper than {@link OrthogonalFit}, and good where the
 * columns' condition number is below about 1e4; a column that the others hold to 1e-5 of its length is ignored (coefficient 0). Cost: rows
 * times columns for each column.
 */
public final class ColumnFit {
    /** A column whose square keeps less than this share beside the others is held by them. */
    private static final double LEAST_NEW = 1e-10;

    private final double[] target;
    private final List<double[]> columns = new ArrayList<>();
    private final List<double[]> lower = new ArrayList<>();
    private final List<Double> parts = new ArrayList<>();
    private double energy;

    /** @param target values to be fitted; kept, not copied */
    public ColumnFit(double[] target) {
        this.target = target;
        this.energy = OrthogonalFit.dot(target, target);
    }

    /** Adds a column; kept, not copied. */
    public void add(double[] column) {
        int n = columns.size();
        double[] row = new double[n + 1];
        double own = OrthogonalFit.dot(column, column);
        double pivot = own;
        double part = OrthogonalFit.dot(column, target);
        for (int j = 0; j < n; j++) {
            double[] above = lower.get(j);
            if (above[j] > 0) {
                double sum = OrthogonalFit.dot(column, columns.get(j));
                for (int m = 0; m < j; m++) {
                    sum -= row[m] * above[m];
                }
                row[j] = sum / above[j];
                pivot -= row[j] * row[j];
                part -= row[j] * parts.get(j);
            }
        }
        boolean fresh = pivot > LEAST_NEW * own;
        row[n] = fresh ? Math.sqrt(pivot) : 0;
        part = fresh ? part / row[n] : 0;
        energy = Math.max(0, energy - part * part);
        columns.add(column);
        lower.add(row);
        parts.add(part);
    }

    /** Sum of the squared residuals. */
    public double energy() {
        return energy;
    }

    public int columns() {
        return columns.size();
    }

    /**
     * Coefficients with the squares of some columns made larger (Levenberg 1944, Marquardt 1963: a step that goes less far).
     *
     * @param damping share by which each column's own square is raised, 0 and more; one for each column
     */
    public double[] damped(double[] damping) {
        int n = columns.size();
        NormalFit fit = new NormalFit(n);
        double[] row = new double[n];
        double[] square = new double[n];
        for (int k = 0; k < n; k++) {
            for (int i = k; i < n; i++) {
                row[i] = lower.get(i)[k];
                square[i] += row[i] * row[i];
            }
            fit.add(row, parts.get(k));
            row[k] = 0;
        }
        for (int i = 0; i < n; i++) {
            if (damping[i] > 0) {
                double[] own = new double[n];
                own[i] = Math.sqrt(damping[i] * square[i]);
                fit.add(own, 0);
            }
        }
        return fit.solve();
    }

    /** Coefficients of the columns in the order in which they were added. */
    public double[] coefficients() {
        int n = columns.size();
        double[] solution = new double[n];
        for (int i = n - 1; i >= 0; i--) {
            double sum = parts.get(i);
            for (int j = i + 1; j < n; j++) {
                sum -= lower.get(j)[i] * solution[j];
            }
            double pivot = lower.get(i)[i];
            solution[i] = pivot > 0 ? sum / pivot : 0;
        }
        return solution;
    }
}
