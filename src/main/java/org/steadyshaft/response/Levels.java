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

    /** How long a hand holds on, how far it slows the shaft, and how well the old level comes back. Our own figures. */
    private static final double LONGEST_GRIP_SECONDS = 8;

    private static final double LEAST_GRIP = 0.02;
    private static final double MOST_GRIP = 0.2;
    private static final double SAME_LEVEL = 0.002;
    private static final double SAME_OF_DIP = 0.06;
    private static final double BESIDE_GRIP_SECONDS = 4;

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
        return withoutGrips(grid, joined);
    }

    /**
     * A hand that holds the wheel for some seconds makes a level of its own; the speed comes back to the old one when it lets go, as a knob that
     * is turned down and up hardly does. Such a level belongs to the load.
     */
    private static List<Stretch> withoutGrips(SpeedGrid grid, List<Stretch> levels) {
        List<Stretch> kept = new ArrayList<>(levels);
        for (int i = kept.size() - 2; i > 0; i--) {
            if (isGrip(grid, kept.get(i - 1), kept.get(i), kept.get(i + 1))) {
                kept.remove(i);
            }
        }
        return kept;
    }

    private static boolean isGrip(SpeedGrid grid, Stretch before, Stretch held, Stretch after) {
        if (held.durationSeconds() > LONGEST_GRIP_SECONDS) {
            return false;
        }
        double old = level(
                grid, Math.max(before.fromSeconds(), before.toSeconds() - BESIDE_GRIP_SECONDS), before.toSeconds());
        double low = level(grid, held.fromSeconds(), held.toSeconds());
        double back = level(
                grid, after.fromSeconds(), Math.min(after.toSeconds(), after.fromSeconds() + BESIDE_GRIP_SECONDS));
        double dip = 1 - low / old;
        return dip > LEAST_GRIP && dip < MOST_GRIP && Math.abs(back / old - 1) < SAME_LEVEL + SAME_OF_DIP * dip;
    }

    /** Mean speed well within a time. */
    private static double level(SpeedGrid grid, double fromSeconds, double toSeconds) {
        int from = grid.cellAt(fromSeconds);
        return grid.level(from, Math.max(from + 1, grid.cellAt(toSeconds)));
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
