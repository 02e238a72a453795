package org.steadyshaft.voltage;

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

    /** Sums kept for a quarter. */
    static final int SUMS = 19;

    private static final int JOINED = 15;
    private static final double RIDGE = 1e-9;

    /**
     * Of level or angle so small a share is its own, not offset's and slope's, only where a window holds a few samples: beside an end. A whole
     * window leaves a third and more. What is fitted there is drawn from its neighbour.
     */
    private static final double OWN_SHARE = 1e-3;

    /** For window quarter j: weight and its change over a quarter, the same times u, and weight times u^2; u runs from -1 to 1. */
    private static final double[][] WEIGHT = new double[WINDOW][];

    static {
        for (int j = 0; j < WINDOW; j++) {
            double u = (j - 0.5 * (WINDOW - 1)) / QUARTERS;
            double w = 0.5 * (1 + Math.cos(Math.PI * u));
            double dw = -0.5 * Math.PI * Math.sin(Math.PI * u);
            WEIGHT[j] = new double[] {w, dw / QUARTERS, w * u, (dw * u + w) / QUARTERS, w * u * u};
        }
    }

    private LocalFitter() {}

    /**
     * @param grid first sample of every quarter cell, and after the last
     * @param volts the waveform, hum taken out
     * @param sums work space, {@link #SUMS} for each quarter
     */
    static void fit(VoltagePiece piece, int[] grid, double[] volts, double[] sums, LocalSeries series) {
        int quarters = grid.length - 1;
        for (int q = 0; q < quarters; q++) {
            gather(piece, volts, grid[q], grid[q + 1], sums, SUMS * q);
        }
        double[] g = new double[JOINED];
        int told = -1;
        for (int k = 0; k < series.count; k++) {
            int from = Math.max(0, k + 1 - QUARTERS);
            int to = Math.min(quarters, k + 1 + QUARTERS);
            join(sums, from, to, k + 1 - QUARTERS, g);
            if (solve(piece, series, k, g)) {
                for (int j = told < 0 ? 0 : k; j < k; j++) {
                    series.copy(k, j);
                }
                told = k;
            } else if (told >= 0) {
                series.copy(told, k);
            }
        }
    }

    /** Sums over one quarter: 1, v, a, b, vv, va, vb, aa, bb, ab, then all but the first times place in the quarter; a, b the bases. */
    private static void gather(VoltagePiece piece, double[] volts, int from, int to, double[] sums, int at) {
        double[] first = piece.levelBasis;
        double[] second = piece.angleBasis;
        double middle = 0.5 * (from + to - 1);
        double scale = 1.0 / Math.max(1, to - from);
        double v0 = 0;
        double a0 = 0;
        double b0 = 0;
        double vv0 = 0;
        double va0 = 0;
        double vb0 = 0;
        double aa0 = 0;
        double bb0 = 0;
        double ab0 = 0;
        double v1 = 0;
        double a1 = 0;
        double b1 = 0;
        double vv1 = 0;
        double va1 = 0;
        double vb1 = 0;
        double aa1 = 0;
        double bb1 = 0;
        double ab1 = 0;
        for (int i = from; i < to; i++) {
            double place = (i - middle) * scale;
            double v = volts[i];
            double a = first[i];
            double b = second[i];
            double pv = place * v;
            double pa = place * a;
            double pb = place * b;
            v0 += v;
            a0 += a;
            b0 += b;
            vv0 += v * v;
            va0 += v * a;
            vb0 += v * b;
            aa0 += a * a;
            bb0 += b * b;
            ab0 += a * b;
            v1 += pv;
            a1 += pa;
            b1 += pb;
            vv1 += pv * v;
            va1 += pv * a;
            vb1 += pv * b;
            aa1 += pa * a;
            bb1 += pb * b;
            ab1 += pa * b;
        }
        sums[at] = to - from;
        sums[at + 1] = v0;
        sums[at + 2] = a0;
        sums[at + 3] = b0;
        sums[at + 4] = vv0;
        sums[at + 5] = va0;
        sums[at + 6] = vb0;
        sums[at + 7] = aa0;
        sums[at + 8] = bb0;
        sums[at + 9] = ab0;
        sums[at + 10] = v1;
        sums[at + 11] = a1;
        sums[at + 12] = b1;
        sums[at + 13] = vv1;
        sums[at + 14] = va1;
        sums[at + 15] = vb1;
        sums[at + 16] = aa1;
        sums[at + 17] = bb1;
        sums[at + 18] = ab1;
    }

    /**
     * Joins up to eight quarters with the window's weight. Takes the upper half of the matrix for (1, u, a, b) row by row, then the right
     * side, then the sum of v^2.
     */
    private static void join(double[] sums, int from, int to, int start, double[] g) {
        double g00 = 0;
        double g01 = 0;
        double g02 = 0;
        double g03 = 0;
        double g11 = 0;
        double g12 = 0;
        double g13 = 0;
        double g22 = 0;
        double g23 = 0;
        double g33 = 0;
        double r0 = 0;
        double r1 = 0;
        double r2 = 0;
        double r3 = 0;
        double square = 0;
        for (int q = from; q < to; q++) {
            double[] w = WEIGHT[q - start];
            double w0 = w[0];
            double w1 = w[1];
            double w2 = w[2];
            double w3 = w[3];
            int at = SUMS * q;
            double n = sums[at];
            g00 += w0 * n;
            g01 += w2 * n;
            g11 += w[4] * n;
            r0 += w0 * sums[at + 1] + w1 * sums[at + 10];
            r1 += w2 * sums[at + 1] + w3 * sums[at + 10];
            g02 += w0 * sums[at + 2] + w1 * sums[at + 11];
            g12 += w2 * sums[at + 2] + w3 * sums[at + 11];
            g03 += w0 * sums[at + 3] + w1 * sums[at + 12];
            g13 += w2 * sums[at + 3] + w3 * sums[at + 12];
            square += w0 * sums[at + 4] + w1 * sums[at + 13];
            r2 += w0 * sums[at + 5] + w1 * sums[at + 14];
            r3 += w0 * sums[at + 6] + w1 * sums[at + 15];
            g22 += w0 * sums[at + 7] + w1 * sums[at + 16];
            g33 += w0 * sums[at + 8] + w1 * sums[at + 17];
            g23 += w0 * sums[at + 9] + w1 * sums[at + 18];
        }
        g[0] = g00;
        g[1] = g01;
        g[2] = g02;
        g[3] = g03;
        g[4] = g11;
        g[5] = g12;
        g[6] = g13;
        g[7] = g22;
        g[8] = g23;
        g[9] = g33;
        g[10] = r0;
        g[11] = r1;
        g[12] = r2;
        g[13] = r3;
        g[14] = square;
    }

    /**
     * Cholesky without roots on four unknowns, written out; the last pivot gives the variance of the angle.
     *
     * @return whether level and angle could be told from offset and slope
     */
    private static boolean solve(VoltagePiece piece, LocalSeries series, int k, double[] g) {
        double p0 = pivot(g[0], 0);
        double i0 = 1 / p0;
        double l10 = g[1] * i0;
        double l20 = g[2] * i0;
        double l30 = g[3] * i0;
        double p1 = pivot(g[4], l10 * g[1]);
        double i1 = 1 / p1;
        double h21 = g[5] - l20 * g[1];
        double h31 = g[6] - l30 * g[1];
        double l21 = h21 * i1;
        double l31 = h31 * i1;
        double p2 = pivot(g[7], l20 * g[2] + l21 * h21);
        double i2 = 1 / p2;
        double h32 = g[8] - l30 * g[2] - l31 * h21;
        double l32 = h32 * i2;
        double p3 = pivot(g[9], l30 * g[3] + l31 * h31 + l32 * h32);
        double i3 = 1 / p3;
        double y0 = g[10];
        double y1 = g[11] - l10 * y0;
        double y2 = g[12] - l20 * y0 - l21 * y1;
        double y3 = g[13] - l30 * y0 - l31 * y1 - l32 * y2;
        double delta = y3 * i3;
        double level = y2 * i2 - l32 * delta;
        double slope = y1 * i1 - l21 * level - l31 * delta;
        double explained = y0 * y0 * i0 + y1 * y1 * i1 + y2 * y2 * i2 + y3 * delta;
        series.offset[k] = y0 * i0 - l10 * slope - l20 * level - l30 * delta;
        series.level[k] = level;
        double power = Math.max(piece.leastPower, (g[14] - explained) * i0);
        series.power[k] = power;
        series.variance[k] = power * g[0] * i3;
        double limit = 1.0 / piece.polePairs();
        double lack = delta / Math.max(0.3, level);
        series.lack[k] = Math.max(-limit, Math.min(limit, lack));
        return p2 > OWN_SHARE * g[7] && p3 > OWN_SHARE * g[9];
    }

    private static double pivot(double own, double held) {
        return Math.max(own * (1 + RIDGE) - held, 1e-12 * own + Double.MIN_NORMAL);
    }
}
