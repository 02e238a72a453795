package org.steadyshaft.response;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * An unbroken part of a track in cells of equal length, each the mean speed over it: turns by time of the cycles that
 * overlap it. A cell is as long as a half-cycle of 50 Hz mains, so that ripple at twice the mains falls out of it. Where a cycle
 * is longer than a cell, cells share its speed.
 */
final class SpeedGrid {
    static final double CELL_SECONDS = 0.01;

    /** A missing cycle or two do not end a part; a longer gap does: our own figure. */
    private static final double GAP_SECONDS = 0.1;

    private final double startSeconds;
    private final double cyclesATurn;
    private final double[] rpm;

    /** @param from first cycle, @param to end of the cycles */
    private SpeedGrid(SpeedTrack track, int from, int to) {
        this.startSeconds = track.fromSeconds(from);
        int cells = (int) Math.floor((track.toSeconds(to - 1) - startSeconds) / CELL_SECONDS);
        this.rpm = new double[cells];
        double[] covered = new double[cells];
        double turns = 0;
        for (int i = from; i < to; i++) {
            double begin = track.fromSeconds(i) - startSeconds;
            double end = track.toSeconds(i) - startSeconds;
            turns += (end - begin) * track.speedRpm(i) / 60;
            int last = (int) Math.min(cells - 1, Math.floor(end / CELL_SECONDS));
            for (int c = (int) Math.floor(begin / CELL_SECONDS); c <= last; c++) {
                double overlap = Math.min(end, (c + 1) * CELL_SECONDS) - Math.max(begin, c * CELL_SECONDS);
                rpm[c] += Math.max(0, overlap) * track.speedRpm(i);
                covered[c] += Math.max(0, overlap);
            }
        }
        this.cyclesATurn = (to - from) / turns;
        for (int c = 0; c < cells; c++) {
            rpm[c] = covered[c] > 0 ? rpm[c] / covered[c] : rpm[c - 1];
        }
    }

    /** The unbroken parts of a track that are longer than a few cells. */
    static List<SpeedGrid> of(SpeedTrack track) {
        List<SpeedGrid> grids = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= track.size(); i++) {
            if (i == track.size() || track.fromSeconds(i) - track.toSeconds(i - 1) > GAP_SECONDS) {
                if (track.toSeconds(i - 1) - track.fromSeconds(from) > 10 * CELL_SECONDS) {
                    grids.add(new SpeedGrid(track, from, i));
                }
                from = i;
            }
        }
        return grids;
    }

    int cells() {
        return rpm.length;
    }

    double rpm(int cell) {
        return rpm[cell];
    }

    /** Middle of a cell. */
    double timeSeconds(double cell) {
        return startSeconds + (cell + 0.5) * CELL_SECONDS;
    }

    double endSeconds() {
        return startSeconds + rpm.length * CELL_SECONDS;
    }

    /** Length of a cycle of the tacho at a speed. */
    double cycleSeconds(double speedRpm) {
        return 60 / (speedRpm * cyclesATurn);
    }

    /** The cell that holds a time; the nearest one for a time outside. */
    int cellAt(double timeSeconds) {
        int cell = (int) Math.floor((timeSeconds - startSeconds) / CELL_SECONDS);
        return Math.max(0, Math.min(rpm.length - 1, cell));
    }

    /** Whether all of a stretch lies in this part, but for half a second at its ends. */
    boolean holds(Stretch stretch) {
        return stretch.fromSeconds() > startSeconds - 0.5 && stretch.toSeconds() < endSeconds() + 0.5;
    }

    /** Running mean over about so many seconds about each cell; at the ends over what there is on both sides. */
    double[] smooth(double seconds) {
        int half = (int) Math.round(0.5 * (seconds / CELL_SECONDS - 1));
        double[] sums = new double[rpm.length + 1];
        for (int c = 0; c < rpm.length; c++) {
            sums[c + 1] = sums[c] + rpm[c];
        }
        double[] means = new double[rpm.length];
        for (int c = 0; c < rpm.length; c++) {
            int reach = Math.max(0, Math.min(half, Math.min(c, rpm.length - 1 - c)));
            means[c] = (sums[c + reach + 1] - sums[c - reach]) / (2 * reach + 1);
        }
        return means;
    }

    /**
     * Mean over a part with the weights of a Hann window, under which a swing of two periods and more falls out; a swing of
     * relative amplitude a and m periods leaves about a / m^3.
     *
     * @param from first cell
     * @param to end of the cells; more than from
     */
    double level(int from, int to) {
        double sum = 0;
        double weights = 0;
        for (int c = from; c < to; c++) {
            double weight = 1 - Math.cos(2 * Math.PI * (c - from + 0.5) / (to - from));
            sum += weight * rpm[c];
            weights += weight;
        }
        return sum / weights;
    }

    /**
     * {@link #level} of windows that begin every so many cells. The weights are computed once, and four windows are summed side by
     * side: each sum waits for its last addition, so four take hardly longer than one.
     *
     * @param window cells in a window
     * @param stride cells from the beginning of one window to that of the next
     * @param count number of windows; the last one ends within the grid
     */
    double[] levels(int window, int stride, int count) {
        double[] weight = new double[window];
        double weights = 0;
        for (int c = 0; c < window; c++) {
            weight[c] = 1 - Math.cos(2 * Math.PI * (c + 0.5) / window);
            weights += weight[c];
        }
        double[] levels = new double[count];
        int k = 0;
        for (; k + 4 <= count; k += 4) {
            fourSums(weight, k * stride, stride, levels, k);
        }
        for (; k < count; k++) {
            for (int c = 0; c < window; c++) {
                levels[k] += weight[c] * rpm[k * stride + c];
            }
        }
        for (int i = 0; i < count; i++) {
            levels[i] /= weights;
        }
        return levels;
    }

    private void fourSums(double[] weight, int from, int stride, double[] sums, int at) {
        double first = 0;
        double second = 0;
        double third = 0;
        double fourth = 0;
        for (int c = 0; c < weight.length; c++) {
            double w = weight[c];
            first += w * rpm[from + c];
            second += w * rpm[from + stride + c];
            third += w * rpm[from + 2 * stride + c];
            fourth += w * rpm[from + 3 * stride + c];
        }
        sums[at] = first;
        sums[at + 1] = second;
        sums[at + 2] = third;
        sums[at + 3] = fourth;
    }

    /**
     * The extreme of the speed about a cell, by a parabola through the cells around it (least squares): evens out noise and
     * keeps the height of a rounded peak, where a mean would cut it.
     */
    double extremeRpm(int cell, double halfSeconds) {
        int reach = (int) Math.max(1, Math.round(halfSeconds / CELL_SECONDS));
        int half = Math.min(reach, Math.min(cell, rpm.length - 1 - cell));
        if (half < 2) {
            return rpm[cell];
        }
        double[] parabola = parabola(cell, half);
        double curve = parabola[2];
        double shift = curve == 0 ? 0 : -0.5 * parabola[1] / curve;
        return Math.abs(shift) <= half ? parabola[0] - curve * shift * shift : parabola[0];
    }

    /** Constant, slope and curve over the cells from -half to half about one, which make the sums over odd powers vanish. */
    private double[] parabola(int cell, int half) {
        double count = 2 * half + 1;
        double squares = 0;
        double fourths = 0;
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = -half; k <= half; k++) {
            double square = (double) k * k;
            squares += square;
            fourths += square * square;
            sum += rpm[cell + k];
            first += k * rpm[cell + k];
            second += square * rpm[cell + k];
        }
        double curve = (count * second - squares * sum) / (count * fourths - squares * squares);
        return new double[] {(sum - curve * squares) / count, first / squares, curve};
    }
}
