package org.steadyshaft.response;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Measures a step. Rise: between the last time at 10 % before the first time at 90 %, and that. Overshoot: the extreme after it, by
 * a parabola; what the swings of the steady parts explain is no overshoot. Settling: the last time outside +-2 % of the step's
 * height about the new level, until the end of the part that the level was taken from.
 */
final class StepMeter {
    private static final double SETTLED_SHARE = 0.02;

    /** Slower changes are sweeps: our own figure. */
    private static final double SLOWEST_SECONDS = 10;

    /** Smoothing over this share of the rise shifts its ends by less than half a percent of it. */
    private static final double SMOOTH_SHARE = 0.12;

    /** An overshoot below this share of the step is not told from an error of the level: our own figure. */
    private static final double LEAST_OVERSHOOT = 0.005;

    /**
     * The parabola at the peak reaches this share of the rise to both sides. The peak of a second-order answer is a rise wide
     * and more, but faster swings may ride on it; what the parabola loses grows with the fourth power of its reach.
     */
    private static final double PEAK_SHARE = 0.15;

    private final SpeedGrid grid;
    private final Transition transition;
    private final double[] smooth;
    private final double swing;

    /**
     * @param smooth the grid's speeds, smoothed over {@link Swings#SMOOTH_SECONDS}
     * @param swing the share of the speed that swings explain
     */
    StepMeter(SpeedGrid grid, Transition transition, double[] smooth, double swing) {
        this.grid = grid;
        this.transition = transition;
        this.smooth = smooth;
        this.swing = swing;
    }

    /** The figures; empty where the change is too slow to be a step. */
    Optional<Step> measure() {
        Rise coarse = rise(smooth);
        double[] fine = grid.smooth(Math.min(Swings.SMOOTH_SECONDS, SMOOTH_SHARE * coarse.seconds()));
        Rise rise = rise(fine);
        if (!(rise.seconds() > 0) || rise.seconds() > SLOWEST_SECONDS) {
            return Optional.empty();
        }
        double onset = new OnsetFinder(grid)
                .find(fine, transition.fromRpm(), transition.changeRpm(), (int) Math.floor(rise.at90));
        return Optional.of(new Step(
                onset,
                transition.fromRpm(),
                transition.toRpm(),
                OptionalDouble.empty(),
                rise.seconds(),
                100 * overshoot(rise, fine),
                settling(fine, onset)));
    }

    /** Places between cells at which the speed has gone 10 % and 90 % of its way. */
    private record Rise(double at10, double at90) {
        double seconds() {
            return (at90 - at10) * SpeedGrid.CELL_SECONDS;
        }
    }

    private Rise rise(double[] rpm) {
        int up = transition.firstCell() + 1;
        while (up < transition.levelFrom() && transition.share(rpm[up]) < 0.9) {
            up++;
        }
        int low = up;
        while (low > 1 && transition.share(rpm[low - 1]) > 0.1) {
            low--;
        }
        return new Rise(crossing(rpm, low, 0.1), crossing(rpm, up, 0.9));
    }

    /** Where between a cell and the one before a share is met. */
    private double crossing(double[] rpm, int cell, double share) {
        double before = transition.share(rpm[cell - 1]);
        double here = transition.share(rpm[cell]);
        double part = here == before ? 0 : Math.max(-1, Math.min(0, (share - here) / (here - before)));
        return cell + part;
    }

    private double overshoot(Rise rise, double[] fine) {
        int peak = (int) Math.ceil(rise.at90);
        int end = Math.min(transition.levelTo(), (int) (rise.at90 + 4 * (rise.at90 - rise.at10) + 20));
        for (int c = peak; c < end; c++) {
            peak = transition.share(fine[c]) > transition.share(fine[peak]) ? c : peak;
        }
        double beyond = transition.share(grid.extremeRpm(peak, PEAK_SHARE * rise.seconds())) - 1;
        double explained = swing * transition.toRpm() / Math.abs(transition.changeRpm());
        return beyond > Math.max(LEAST_OVERSHOOT, explained) ? beyond : 0;
    }

    private OptionalDouble settling(double[] fine, double onset) {
        int outside = transition.levelTo() - 1;
        while (outside > 0 && Math.abs(transition.share(fine[outside]) - 1) <= SETTLED_SHARE) {
            outside--;
        }
        if (outside >= transition.levelFrom()) {
            return OptionalDouble.empty();
        }
        double here = transition.share(fine[outside]) - 1;
        double next = transition.share(fine[outside + 1]) - 1;
        double part = (Math.signum(here) * SETTLED_SHARE - here) / (next - here);
        return OptionalDouble.of(Math.max(0, grid.timeSeconds(outside + part) - onset));
    }
}
