package org.steadyshaft.response;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.steadyshaft.signal.Stretch;

/**
 * The levels between which changes are looked for: the steady stretches, and beside them what is level when a swing is
 * averaged away, as a swing can keep a stretch from being called steady. There the mean under a Hann window of three seconds, which
 * leaves less than 5 % of a swing of 0.6 Hz and more, changes by less than a percent in a second and a half, for a second
 * or longer (our own figures). What overlaps is joined.
 */
final class Levels {
    private static final double WINDOW_SECONDS = 3;
    private static final double WHILE_SECONDS = 1.5;
    private static final double CHANGE_SHARE = 0.01;
    private static final double SHORTEST_SECONDS = 1;

    /** The mean is looked at every so many cells. */
    private static final int STRIDE = 5;

    private Levels() {}

    /** The levels of a grid, in order, none touching the next. */
    static List<Stretch> of(SpeedGrid grid, List<Stretch> steady) {
        List<Stretch> all = new ArrayList<>(swinging(grid));
        steady.stream().filter(grid::holds).forEach(all::add);
        all.sort(Comparator.comparingDouble(Stretch::fromSeconds));
        List<Stretch> joined = new ArrayList<>();
        for (Stretch next : all) {
            Stretch last = joined.isEmpty() ? next : joined.get(joined.size() - 1);
            if (!joined.isEmpty() && next.fromSeconds() <= last.toSeconds()) {
                double to = Math.max(last.toSeconds(), next.toSeconds());
                joined.set(joined.size() - 1, new Stretch(last.fromSeconds(), to));
            } else {
                joined.add(next);
            }
        }
        return joined;
    }

    private static List<Stretch> swinging(SpeedGrid grid) {
        int window = (int) Math.round(WINDOW_SECONDS / SpeedGrid.CELL_SECONDS);
        int count = Math.max(0, (grid.cells() - window) / STRIDE);
        double[] means = grid.levels(window, STRIDE, count);
        int half = (int) Math.round(0.5 * WHILE_SECONDS / SpeedGrid.CELL_SECONDS / STRIDE);
        List<Stretch> found = new ArrayList<>();
        int from = half;
        for (int k = half; k <= count - half; k++) {
            if (k == count - half || Math.abs(means[k + half] / means[k - half] - 1) > CHANGE_SHARE) {
                double begin = grid.timeSeconds(from * STRIDE + 0.5 * window);
                double end = grid.timeSeconds(k * STRIDE + 0.5 * window);
                if (end - begin >= SHORTEST_SECONDS) {
                    found.add(new Stretch(begin, end));
                }
                from = k + 1;
            }
        }
        return found;
    }
}
