package org.steadyshaft.numeric;

/**
 * Least squares by normal equations for well-conditioned problems with many rows and few columns: rows come one by one, sums of products
 * are kept. Cost: half the square of the columns a row.
 */
public final class NormalFit {
    /** A pivot below this share of its column's own square is held by the columns before. */
    private static final double LEAST_NEW = 1e-10;

    private final int columns;
    private final double[] products;
    private final double[] right;

    /** @param columns at least 1 */
    public NormalFit(int columns) {
        this.columns = columns;
        this.products = new double[columns * columns];
        this.right = new double[columns];
    }

    /** Adds a row; its first {@code columns} entries count. */
    public void add(double[] row, double target) {
        int at = 0;
        for (int i = 0; i < columns; i++) {
            double a = row[i];
            right[i] += a * target;
            for (int j = 0; j <= i; j++) {
                products[at + j] += a * row[j];
            }
            at += columns;
        }
    }

    /** The coefficients, by Cholesky's method; 0 for a column that the others hold. The sums are used up. */
    public double[] solve() {
        return factor().solve(right);
    }

    /** The matrix of the columns, ready for any right side: where many targets have the same rows. The sums are used up. */
    public Factor factor() {
        int n = columns;
        double[] l = products;
        for (int i = 0; i < n; i++) {
            double own = l[i * n + i];
            for (int j = 0; j <= i; j++) {
                double sum = l[i * n + j];
                for (int m = 0; m < j; m++) {
                    sum -= l[i * n + m] * l[j * n + m];
                }
                if (j < i) {
                    l[i * n + j] = l[j * n + j] > 0 ? sum / l[j * n + j] : 0;
                } else {
                    l[i * n + i] = sum > LEAST_NEW * own ? Math.sqrt(sum) : 0;
                }
            }
        }
        return new Factor(n, l);
    }

    /** Cholesky's lower triangle; unchanging, may be shared by threads. */
    public static final class Factor {
        private final int columns;
        private final double[] lower;

        private Factor(int columns, double[] lower) {
            this.columns = columns;
            this.lower = lower;
        }

        /**
         * The coefficients; 0 for a column that the others hold.
         *
         * @param products sums over the rows of each column times the target; kept as it is
         */
        public double[] solve(double[] products) {
            int n = columns;
            double[] x = products.clone();
            for (int i = 0; i < n; i++) {
                for (int m = 0; m < i; m++) {
                    x[i] -= lower[i * n + m] * x[m];
                }
                x[i] = lower[i * n + i] > 0 ? x[i] / lower[i * n + i] : 0;
            }
            for (int i = n - 1; i >= 0; i--) {
                for (int m = i + 1; m < n; m++) {
                    x[i] -= lower[m * n + i] * x[m];
                }
                x[i] = lower[i * n + i] > 0 ? x[i] / lower[i * n + i] : 0;
            }
            return x;
        }
    }
}
