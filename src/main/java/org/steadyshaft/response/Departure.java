package org.steadyshaft.response;

import org.steadyshaft.numeric.Robust;

/** One departure of the speed from the level it had just before, with its beginning, its extreme and how abruptly it came. */
final class Departure {
    /** The level is a mean over this time before the beginning. */
    private static final double LEVEL_SECONDS = 3;

    /** Where the beginning is told from the level: well before it is known exactly. */
    private static final double CLEAR_SHARE = 0.05;

    /** The speed must have been calm for so long before, by this share of the departure. */
    private static final double CALM_SECONDS = 0.5;

    private static final double CALM_SHARE = 0.5;
    private static final double KNEE_SECONDS = 1.5;

    /** A jump takes a mains half-cycle or two and is smeared over the tacho's cycles. */
    private static final double JUMP_SECONDS = 0.02;

    /** In jumps this share of the way makes a departure abrupt; a jump is no less than a part of it, and stands alone. */
    private static final double JUMP_SHARE = 0.6;

    private static final double LEAST_JUMP_SHARE = 0.15;
    private static final double BESIDE_SHARE = 0.35;

    /** The parabola at the extreme reaches this share of the way from the beginning. */
    private static final double PEAK_SHARE = 0.25;

    private static final double LONGEST_PARABOLA_SECONDS = 0.15;
    private static final double NOISE_SECONDS = 1;
    private static final double EXTREME_ERROR_SHARE = 0.001;

    /** The beginning is sought in speeds that are smoothed over this time. */
    static final double FINE_SECONDS = 0.03;

    private final SpeedGrid grid;
    private final double[] smooth;
    private final int peak;
    private final int clear;
    private final int levelFrom;
    private final double levelRpm;
    private final double onsetSeconds;
    private final double extremeRpm;

    /**
     * @param fine the grid's speeds, smoothed over {@link #FINE_SECONDS}
     * @param first a cell where the departure is sure
     * @param peak the cell where it is largest
     */
    Departure(SpeedGrid grid, double[] smooth, double[] fine, int first, int peak) {
        this.grid = grid;
        this.smooth = smooth;
        this.peak = peak;
        int rough = Math.max(0, first - cells(0.5));
        double level = grid.level(Math.max(0, rough - cells(LEVEL_SECONDS)), rough + 1);
        int begin = beginning(level);
        this.levelFrom = Math.max(0, begin - cells(LEVEL_SECONDS));
        this.levelRpm = grid.level(levelFrom, begin + 1);
        this.clear = beginning(levelRpm);
        double change = smooth[peak] - levelRpm;
        this.onsetSeconds =
                change == 0 ? grid.timeSeconds(clear) : new OnsetFinder(grid).find(fine, levelRpm, change, peak);
        this.extremeRpm = grid.extremeRpm(sharpPeak(), reachSeconds());
    }

    /**
     * Reach of the parabola at the extreme: as short as noise permits, so that a pointed dip keeps its depth. Its value has about
     * 1.5 standard deviations of a cell over the root of the number of cells; that shall be a thousandth of the level.
     */
    private double reachSeconds() {
        int from = Math.max(1, clear - cells(NOISE_SECONDS));
        double[] jumps = new double[Math.max(1, clear - from)];
        for (int k = 0; k < jumps.length; k++) {
            jumps[k] = grid.rpm(from + k) - grid.rpm(from + k - 1);
        }
        double noise = Robust.sigma(jumps) / Math.sqrt(2) / levelRpm;
        double wanted = Math.pow(1.5 * noise / EXTREME_ERROR_SHARE, 2) / 2 * SpeedGrid.CELL_SECONDS;
        double way = PEAK_SHARE * (grid.timeSeconds(peak) - onsetSeconds);
        double longest = Math.min(LONGEST_PARABOLA_SECONDS, way);
        return Math.max(2 * SpeedGrid.CELL_SECONDS, Math.min(longest, wanted));
    }

    /** The cell about the smoothed peak where three cells together go furthest. */
    private int sharpPeak() {
        double sign = Math.signum(smooth[peak] - levelRpm);
        int reach = cells(Swings.SMOOTH_SECONDS);
        int best = peak;
        double most = Double.NEGATIVE_INFINITY;
        for (int c = Math.max(1, peak - reach); c <= Math.min(grid.cells() - 2, peak + reach); c++) {
            double sum = sign * (grid.rpm(c - 1) + grid.rpm(c) + grid.rpm(c + 1));
            best = sum > most ? c : best;
            most = Math.max(most, sum);
        }
        return best;
    }

    /** The last cell before the peak that is still near a level. */
    private int beginning(double level) {
        double change = smooth[peak] - level;
        int cell = peak;
        while (cell > 0 && (smooth[cell] - level) / change > CLEAR_SHARE) {
            cell--;
        }
        return cell;
    }

    private static int cells(double seconds) {
        return (int) Math.round(seconds / SpeedGrid.CELL_SECONDS);
    }

    double levelRpm() {
        return levelRpm;
    }

    double onsetSeconds() {
        return onsetSeconds;
    }

    int onsetCell() {
        return grid.cellAt(onsetSeconds);
    }

    int peakCell() {
        return peak;
    }

    double extremeRpm() {
        return extremeRpm;
    }

    boolean isUp() {
        return extremeRpm > levelRpm;
    }

    /**
     * Whether it leaves a level: larger than a limit when seen from there, the speed calm for a while before, and not on its way
     * there already, as in the tail of something else: in as much time before the beginning as it takes to the extreme
     * (a second and a half at most) the speed went less than half as far in the same direction.
     */
    boolean leavesLevel(double limit) {
        double away = extremeRpm / levelRpm - 1;
        if (clear < cells(CALM_SECONDS) || !(Math.abs(away) > limit)) {
            return false;
        }
        int looked = Math.min(clear, Math.max(cells(CALM_SECONDS), Math.min(cells(KNEE_SECONDS), peak - clear)));
        for (int c = clear - looked; c < clear; c++) {
            double share = (smooth[c] / levelRpm - 1) / away;
            boolean calm = c < clear - cells(CALM_SECONDS) || Math.abs(share) <= CALM_SHARE;
            if (!calm || CLEAR_SHARE - share > CALM_SHARE) {
                return false;
            }
        }
        return true;
    }

    /**
     * Whether most of the way to the extreme is made in jumps, one or several in a row: spells no longer than a jump takes,
     * in which the speed goes much further than in the spells beside them. An attack that takes its time goes nearly as far
     * in the spell beside. It is abrupt too if what remains without the jumps would not have stood out.
     *
     * @param limit share of the level that swings explain
     */
    boolean isAbrupt(double limit) {
        int spell = cells(JUMP_SECONDS + 2 * grid.cycleSeconds(levelRpm));
        double whole = extremeRpm - levelRpm;
        double jumped = 0;
        int cell = Math.max(0, clear - spell);
        while (cell < peak) {
            int best = cell;
            for (int c = cell; c < cell + spell; c++) {
                best = way(c, spell) / whole > way(best, spell) / whole ? c : best;
            }
            double here = way(best, spell) / whole;
            double beside = Math.max(way(best - spell, spell) / whole, way(best + spell, spell) / whole);
            boolean jump = here > LEAST_JUMP_SHARE && beside < BESIDE_SHARE * here;
            jumped += jump ? here : 0;
            cell = jump ? best + spell : cell + spell;
        }
        double remains = Math.abs(whole) * (1 - jumped);
        return remains < Math.max((1 - JUMP_SHARE) * Math.abs(whole), limit * levelRpm);
    }

    /** How far the speed goes over some cells from one on [rpm]; up to the ends of the grid. */
    private double way(int cell, int cells) {
        int last = grid.cells() - 1;
        int to = Math.max(0, Math.min(last, cell + cells));
        return grid.rpm(to) - grid.rpm(Math.max(0, Math.min(last, cell)));
    }

    /** For how long it is at least half as large as at its extreme. */
    double halfSeconds() {
        double half = 0.5 * (smooth[peak] - levelRpm);
        int from = peak;
        while (from > 0 && (smooth[from] - levelRpm) / half > 1) {
            from--;
        }
        int to = peak;
        while (to < smooth.length - 1 && (smooth[to] - levelRpm) / half > 1) {
            to++;
        }
        return (to - from) * SpeedGrid.CELL_SECONDS;
    }
}
