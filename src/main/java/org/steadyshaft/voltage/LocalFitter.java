package org.steadyshaft.voltage;

import java.util.Arrays;

/**
 * Fits offset, slope, level and angle to short windows of the waveform by weighted least squares, four windows a cell: v = o + s u + c
 * theta' W(theta) + delta theta' W'(theta), so the angle is theta + delta / c. A window spans two cells and weighs like a Hann window; a
 * cell is one cycle of the tacho, or several of a fast one. Sums of products are taken once for each quarter of a cell, in value and first
 * moment, and joined eight at a time with the window's weight and slope there; cost about 25 products a sample.
 */
final class LocalFitter {
    /** A cell lasts no less than this: a faster tacho gives several cycles to a cell (350 cells a second follow any rise of a blip). */
    static final double MOST_CELLS_A_SECOND = 350;

    private static final int QUARTERS = 4;
    private static final int WINDOW = 2 * QUARTERS;
    private static final int SUMS = 10;
    private static final double RIDGE = 1e-9;

    /** For window quarter j: weight and its change over a quarter, times 1, u, u^2 where u runs from -1 to 1. */
    private static final double[][] WEIGHT = new double[WINDOW][];

    static {
        for (int j = 0; j < WINDOW; j++) {
            double u = (j - 0.5 * (WINDOW - 1)) / QUARTERS;
            double w = 0.5 * (1 + Math.cos(Math.PI * u));
            double dw = -0.5 * Math.PI * Math.sin(Math.PI * u);
            WEIGHT[j] = new double[] {
                w, dw / QUARTERS, w * u, (dw * u + w) / QUARTERS, w * u * u, (dw * u * u + 2 * w * u) / QUARTERS
            };
        }
    }

    private LocalFitter() {}

    /**
     * @param grid first sample of every quarter cell, and after the last
     * @param volts the waveform, hum taken out
     */
    static void fit(VoltagePiece piece, int[] grid, double[] volts, LocalSeries series) {
        int quarters = grid.length - 1;
        double[] sums = new double[2 * SUMS * quarters];
        for (int q = 0; q < quarters; q++) {
            gather(piece, volts, grid[q], grid[q + 1], sums, 2 * SUMS * q);
        }
        double[][] g = new double[4][5];
        for (int k = 0; k < series.count; k++) {
            int from = Math.max(0, k + 1 - QUARTERS);
            int to = Math.min(quarters, k + 1 + QUARTERS);
            double square = join(sums, from, to, k + 1 - QUARTERS, g);
            solve(piece, series, k, g, square);
        }
    }

    /** Sums over one quarter: 1, v, b1, b2, vv, v b1, v b2, b1 b1, b2 b2, b1 b2; each plain and times place in the quarter. */
    private static void gather(VoltagePiece piece, double[] volts, int from, int to, double[] sums, int at) {
        double[] first = piece.levelBasis;
        double[] second = piece.angleBasis;
        double middle = 0.5 * (from + to - 1);
        double scale = 1.0 / Math.max(1, to - from);
        for (int i = from; i < to; i++) {
            double place = (i - middle) * scale;
            double v = volts[i];
            double a = first[i];
            double b = second[i];
            sums[at] += 1;
            sums[at + 1] += v;
            sums[at + 2] += a;
            sums[at + 3] += b;
            sums[at + 4] += v * v;
            sums[at + 5] += v * a;
            sums[at + 6] += v * b;
            sums[at + 7] += a * a;
            sums[at + 8] += b * b;
            sums[at + 9] += a * b;
            sums[at + 11] += place * v;
            sums[at + 12] += place * a;
            sums[at + 13] += place * b;
            sums[at + 14] += place * v * v;
            sums[at + 15] += place * v * a;
            sums[at + 16] += place * v * b;
            sums[at + 17] += place * a * a;
            sums[at + 18] += place * b * b;
            sums[at + 19] += place * a * b;
        }
    }

    /** Joins up to eight quarters; the matrix for (1, u, b1, b2) with the right side in column 4. Returns the weighted sum of v^2 over that of 1. */
    private static double join(double[] sums, int from, int to, int start, double[][] g) {
        for (double[] row : g) {
            Arrays.fill(row, 0);
        }
        double square = 0;
        for (int q = from; q < to; q++) {
            double[] w = WEIGHT[q - start];
            int at = 2 * SUMS * q;
            g[0][0] += w[0] * sums[at] + w[1] * sums[at + 10];
            g[0][1] += w[2] * sums[at] + w[3] * sums[at + 10];
            g[1][1] += w[4] * sums[at] + w[5] * sums[at + 10];
            g[0][2] += w[0] * sums[at + 2] + w[1] * sums[at + 12];
            g[1][2] += w[2] * sums[at + 2] + w[3] * sums[at + 12];
            g[0][3] += w[0] * sums[at + 3] + w[1] * sums[at + 13];
            g[1][3] += w[2] * sums[at + 3] + w[3] * sums[at + 13];
            g[2][2] += w[0] * sums[at + 7] + w[1] * sums[at + 17];
            g[3][3] += w[0] * sums[at + 8] + w[1] * sums[at + 18];
            g[2][3] += w[0] * sums[at + 9] + w[1] * sums[at + 19];
            g[0][4] += w[0] * sums[at + 1] + w[1] * sums[at + 11];
            g[1][4] += w[2] * sums[at + 1] + w[3] * sums[at + 11];
            g[2][4] += w[0] * sums[at + 5] + w[1] * sums[at + 15];
            g[3][4] += w[0] * sums[at + 6] + w[1] * sums[at + 16];
            square += w[0] * sums[at + 4] + w[1] * sums[at + 14];
        }
        return square;
    }

    /** Cholesky on four unknowns, written out; the last pivot gives the variance of the angle. */
    private static void solve(VoltagePiece piece, LocalSeries series, int k, double[][] g, double square) {
        double[] g0 = g[0];
        double[] g1 = g[1];
        double[] g2 = g[2];
        double[] g3 = g[3];
        double l00 = root(g0[0], 0);
        double l10 = g0[1] / l00;
        double l20 = g0[2] / l00;
        double l30 = g0[3] / l00;
        double l11 = root(g1[1], l10 * l10);
        double l21 = (g1[2] - l20 * l10) / l11;
        double l31 = (g1[3] - l30 * l10) / l11;
        double l22 = root(g2[2], l20 * l20 + l21 * l21);
        double l32 = (g2[3] - l30 * l20 - l31 * l21) / l22;
        double l33 = root(g3[3], l30 * l30 + l31 * l31 + l32 * l32);
        double z0 = g0[4] / l00;
        double z1 = (g1[4] - l10 * z0) / l11;
        double z2 = (g2[4] - l20 * z0 - l21 * z1) / l22;
        double z3 = (g3[4] - l30 * z0 - l31 * z1 - l32 * z2) / l33;
        double delta = z3 / l33;
        double level = (z2 - l32 * delta) / l22;
        double slope = (z1 - l21 * level - l31 * delta) / l11;
        double explained = z0 * z0 + z1 * z1 + z2 * z2 + z3 * z3;
        series.offset[k] = (z0 - l10 * slope - l20 * level - l30 * delta) / l00;
        series.level[k] = level;
        double power = Math.max(piece.leastPower, (square - explained) / Math.max(g0[0], Double.MIN_NORMAL));
        series.power[k] = power;
        series.variance[k] = power * g0[0] / (l33 * l33);
        double limit = 1.0 / piece.polePairs();
        double lack = delta / Math.max(0.3, level);
        series.lack[k] = Math.max(-limit, Math.min(limit, lack));
    }

    private static double root(double own, double held) {
        double pivot = own * (1 + RIDGE) - held;
        return Math.sqrt(Math.max(pivot, 1e-12 * own + Double.MIN_NORMAL));
    }
}
