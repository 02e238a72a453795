package org.steadyshaft.response;

import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Stretch;

/**
 * How far the speed swings about its level while nothing happens: ripple that is left, hunting, noise. The extremes of all
 * half-waves about the level are gathered, but for the seconds after a change, where it may still ring. Those of a pure
 * swing are all alike, so 1.5 times their median is safe; those of noise in a narrow band follow Rayleigh's distribution, whose
 * median is 1.18 and whose upper quartile 1.67 standard deviations, so six times the difference on top makes 4.7. Small ripples
 * on a large swing make small half-waves where it meets the level: what is far below the upper quartile is left out. An
 * event is one half-wave among many and hardly moves any of this.
 */
final class Swings {
    /** Noise and ripple are evened out over this time; a departure of interest takes longer. */
    static final double SMOOTH_SECONDS = 0.1;

    /** The level follows as a median over this time: a departure that is over in less than half of it does not move it. */
    private static final double LEVEL_SECONDS = 10;

    /** Every so manieth cell is enough for the median. */
    private static final int COARSE = 5;

    /** So long after a change the speed may ring about its new level. */
    private static final double RING_SECONDS = 4;

    private static final double SMALL_SHARE = 0.3;
    private static final double TIMES_MEDIAN = 1.5;
    private static final double TIMES_SPREAD = 6;

    private final SpeedGrid grid;
    private final double[] smooth;
    private final DoubleSeries.Builder extremes = new DoubleSeries.Builder();

    Swings(SpeedGrid grid) {
        this.grid = grid;
        this.smooth = grid.smooth(SMOOTH_SECONDS);
    }

    /** Speeds of the grid, smoothed [rpm]. */
    double[] smooth() {
        return smooth;
    }

    /** Deviation of the smoothed speed from its level, as a share of it; 0 outside the steady stretches. */
    double[] share(List<Stretch> steady) {
        double[] share = new double[grid.cells()];
        for (Stretch stretch : steady) {
            if (grid.holds(stretch)) {
                int from = grid.cellAt(stretch.fromSeconds());
                int to = grid.cellAt(stretch.toSeconds()) + 1;
                fill(share, from, to);
                boolean mayRing = stretch.fromSeconds() > grid.timeSeconds(0) + RING_SECONDS;
                int ring = mayRing ? (int) Math.min(RING_SECONDS / SpeedGrid.CELL_SECONDS, 0.5 * (to - from)) : 0;
                gather(share, from + ring, to);
            }
        }
        return share;
    }

    private void fill(double[] share, int from, int to) {
        double[] coarse = new double[(to - from + COARSE - 1) / COARSE];
        for (int k = 0; k < coarse.length; k++) {
            coarse[k] = smooth[from + k * COARSE];
        }
        double[] level =
                Robust.runningMedian(coarse, (int) Math.round(0.5 * LEVEL_SECONDS / COARSE / SpeedGrid.CELL_SECONDS));
        for (int c = from; c < to; c++) {
            share[c] = smooth[c] / level[(c - from) / COARSE] - 1;
        }
    }

    private void gather(double[] share, int from, int to) {
        double extreme = 0;
        for (int c = from; c < to; c++) {
            if (share[c] * extreme < 0) {
                extremes.add(Math.abs(extreme));
                extreme = 0;
            }
            extreme = Math.abs(share[c]) > Math.abs(extreme) ? share[c] : extreme;
        }
        extremes.add(Math.abs(extreme));
    }

    /** The share of the level that swings and noise seen so far do not exceed; 0 where nothing was seen. */
    double limit() {
        if (extremes.size() == 0) {
            return 0;
        }
        double[] sorted = extremes.build().toArray();
        Arrays.sort(sorted);
        double least = SMALL_SHARE * upperQuartile(sorted);
        double[] swings = Arrays.stream(sorted).filter(e -> e >= least).toArray();
        double median = Robust.median(swings);
        double upper = upperQuartile(swings);
        return TIMES_MEDIAN * median + TIMES_SPREAD * (upper - median);
    }

    private static double upperQuartile(double[] sorted) {
        return sorted[(int) Math.round(0.75 * (sorted.length - 1))];
    }
}
