package org.steadyshaft.response;

/**
 * Tells when a change begins, by a change-point: up to it the speed is level, from it on a parabola that begins there. The
 * beginning with the least sum of squares is taken. The straight term fits a first-order answer, which leaves its level at once,
 * the square one a second-order answer, which leaves it gently: neither needs a threshold, which would come late by a share
 * of the time constant.
 */
final class OnsetFinder {
    /** How much of the change is looked at: far enough to stand clear of noise, short enough for a parabola. */
    private static final double SHARE = 0.3;

    /** Level speed before the beginning that is fitted too. */
    private static final double BEFORE_SECONDS = 1;

    private static final double TRIAL_SECONDS = 0.005;

    private final SpeedGrid grid;

    OnsetFinder(SpeedGrid grid) {
        this.grid = grid;
    }

    /**
     * The beginning of the change that leads to a cell.
     *
     * @param smooth the grid's speeds, smoothed
     * @param levelRpm the level that it leaves
     * @param changeRpm how far it goes, signed
     * @param reached a cell where it has gone that far
     */
    double find(double[] smooth, double levelRpm, double changeRpm, int reached) {
        int at = reached;
        while (at > 0 && (smooth[at] - levelRpm) / changeRpm > SHARE) {
            at--;
        }
        int clear = at;
        while (clear > 0 && (smooth[clear] - levelRpm) / changeRpm > 0.2 * SHARE) {
            clear--;
        }
        double slack = 0.1 + (at - clear) * SpeedGrid.CELL_SECONDS;
        double earliest = grid.timeSeconds(clear) - slack;
        double latest = grid.timeSeconds(at) - 2 * SpeedGrid.CELL_SECONDS;
        int from = grid.cellAt(earliest - BEFORE_SECONDS);
        double best = earliest;
        double least = Double.POSITIVE_INFINITY;
        for (double trial = earliest; trial <= latest; trial += TRIAL_SECONDS) {
            double misfit = misfit(from, at + 1, trial, levelRpm, changeRpm);
            if (misfit < least) {
                least = misfit;
                best = trial;
            }
        }
        return Math.max(best, grid.timeSeconds(0));
    }

    /**
     * Sum of squares of what is left when level and parabola are fitted; the slope at the beginning may not point away from
     * the change, else a swing before it would be taken for a part of it.
     */
    private double misfit(int from, int to, double beginSeconds, double levelRpm, double changeRpm) {
        double since1 = 0;
        double since2 = 0;
        double since3 = 0;
        double since4 = 0;
        double value0 = 0;
        double value1 = 0;
        double value2 = 0;
        double squares = 0;
        for (int c = from; c < to; c++) {
            double since = Math.max(0, grid.timeSeconds(c) - beginSeconds);
            double square = since * since;
            double value = (grid.rpm(c) - levelRpm) / changeRpm;
            since1 += since;
            since2 += square;
            since3 += since * square;
            since4 += square * square;
            value0 += value;
            value1 += since * value;
            value2 += square * value;
            squares += value * value;
        }
        double[][] normal = {
            {to - from, since1, since2, value0}, {since1, since2, since3, value1}, {since2, since3, since4, value2}
        };
        double[] full = solve(normal, 3, 1);
        if (full[1] < 0) {
            double[][] bent = {
                {normal[0][0], normal[0][2], normal[0][3]},
                {normal[2][0], normal[2][2], normal[2][3]}
            };
            double[] two = solve(bent, 2, 1);
            return squares - two[0] * normal[0][3] - two[1] * normal[2][3];
        }
        return squares - full[0] * normal[0][3] - full[1] * normal[1][3] - full[2] * normal[2][3];
    }

    /** Solves a small symmetric system by elimination; a column without weight gets 0. */
    private static double[] solve(double[][] equations, int size, int right) {
        double[][] left = new double[size][];
        for (int i = 0; i < size; i++) {
            left[i] = equations[i].clone();
        }
        for (int i = 0; i < size; i++) {
            for (int k = i + 1; k < size && left[i][i] > 0; k++) {
                double factor = left[k][i] / left[i][i];
                for (int j = i; j < size + right; j++) {
                    left[k][j] -= factor * left[i][j];
                }
            }
        }
        double[] found = new double[size];
        for (int i = size - 1; i >= 0; i--) {
            double sum = left[i][size];
            for (int j = i + 1; j < size; j++) {
                sum -= left[i][j] * found[j];
            }
            found[i] = left[i][i] > 1e-18 ? sum / left[i][i] : 0;
        }
        return found;
    }
}
