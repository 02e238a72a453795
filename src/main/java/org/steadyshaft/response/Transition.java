package org.steadyshaft.response;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.signal.Stretch;

/**
 * What lies between two neighbouring steady stretches. The levels are means of the settled halves: of the last seconds before it
 * and of the later half of the first seconds after it, where the tail of the change is over and a drift has not gone far.
 *
 * <p>Told apart without knowing the command or the load (our own figures): a lasting change of 8 % or more is a step, since
 * a controller holds its speed better than that, while hands turn the knob by more. Less is put down to the load. So is a
 * change in which the speed goes further beyond the new level than that is away: a set-point overshoots by less than its own
 * height, even where nothing damps it. A speed that falls below half of both levels between them has been stopped and started.
 */
final class Transition {
    /** Lasting change from which it is a step, as a share of the speed before. */
    static final double STEP_SHARE = 0.08;

    private static final double LEVEL_SECONDS = 4;

    /** A stretch may reach so far into the change that ends it. */
    private static final double OVERLAP_SECONDS = 1;

    private static final int MARGIN_CELLS = 10;

    private final SpeedGrid grid;
    private final Stretch before;
    private final Stretch after;
    private final double fromRpm;
    private final double toRpm;
    private final int firstCell;
    private final int levelFrom;
    private final int levelTo;

    private Transition(SpeedGrid grid, Stretch before, Stretch after) {
        this.grid = grid;
        this.before = before;
        this.after = after;
        double pastSeconds = Math.min(LEVEL_SECONDS, 0.5 * before.durationSeconds());
        double endSeconds = before.toSeconds() - Math.min(OVERLAP_SECONDS, 0.5 * pastSeconds);
        int end = grid.cellAt(endSeconds);
        this.fromRpm = grid.level(Math.max(0, Math.min(end - 1, grid.cellAt(endSeconds - pastSeconds))), end);
        double comingSeconds = Math.min(LEVEL_SECONDS, 0.5 * after.durationSeconds());
        this.levelFrom = grid.cellAt(after.fromSeconds() + comingSeconds);
        this.levelTo = Math.max(levelFrom + 1, grid.cellAt(after.fromSeconds() + 2 * comingSeconds));
        this.toRpm = grid.level(levelFrom, levelTo);
        this.firstCell = lastOnLevel();
    }

    /**
     * The end of the level before: the end of its stretch, or where the change began in it. Whoever found the stretch by a
     * median may have drawn its end a little after that.
     */
    private int lastOnLevel() {
        int end = grid.cellAt(before.toSeconds());
        int earliest = grid.cellAt(before.toSeconds() - OVERLAP_SECONDS);
        int half = earliest;
        while (half < end && share(grid.rpm(half)) < 0.5) {
            half++;
        }
        while (half > earliest && share(grid.rpm(half)) > 0.05) {
            half--;
        }
        return Math.max(0, half - MARGIN_CELLS);
    }

    /** What lies between the steady stretches of a grid, in order. */
    static List<Transition> between(SpeedGrid grid, List<Stretch> steady) {
        List<Transition> transitions = new ArrayList<>();
        for (int i = 1; i < steady.size(); i++) {
            if (grid.holds(steady.get(i - 1)) && grid.holds(steady.get(i))) {
                transitions.add(new Transition(grid, steady.get(i - 1), steady.get(i)));
            }
        }
        return transitions;
    }

    double fromRpm() {
        return fromRpm;
    }

    double toRpm() {
        return toRpm;
    }

    double changeRpm() {
        return toRpm - fromRpm;
    }

    /** End of the level before. */
    int firstCell() {
        return firstCell;
    }

    /** Beginning of the steady stretch after. */
    int lastCell() {
        return grid.cellAt(after.fromSeconds());
    }

    /** First cell of those that the level after is the mean of. */
    int levelFrom() {
        return levelFrom;
    }

    int levelTo() {
        return levelTo;
    }

    /** How far on its way from the old level, 0, to the new one, 1, a speed is. */
    double share(double rpm) {
        return (rpm - fromRpm) / (toRpm - fromRpm);
    }

    /**
     * Whether it is a step.
     *
     * @param smooth the grid's speeds, smoothed
     * @param swing the share of the speed that swings explain
     */
    boolean isStep(double[] smooth, double swing) {
        if (!(Math.abs(changeRpm()) >= Math.max(STEP_SHARE, swing) * fromRpm)) {
            return false;
        }
        for (int c = firstCell(); c < levelFrom; c++) {
            if (smooth[c] < 0.5 * Math.min(fromRpm, toRpm) || share(smooth[c]) > 2) {
                return false;
            }
        }
        return true;
    }
}
