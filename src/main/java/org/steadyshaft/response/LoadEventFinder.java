package org.steadyshaft.response;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds where a load was put on or taken off: the speed leaves a calm level by more than its swings explain, without a change
 * of the set-point ({@link Transition} tells these apart), and comes back or stays off a little. One event lasts until the speed
 * is calm again: a hand that lets go within it, and the swing past the level that follows, belong to it.
 *
 * <p>An inertia takes time to change its speed. A departure that is there within a few hundredths of a second is
 * a fault of the firing (up) or not to be told from a missed firing (down): it is passed over where it goes up, is short, or lies in
 * one of the stretches that the caller knows as blips. A stretch of a blip does not hide a departure that came gradually.
 */
public final class LoadEventFinder {
    /** Nothing smaller is called a load event: our own figure, what a hand can just feel. */
    private static final double LEAST_SHARE = 0.01;

    private static final double RECOVERED_SHARE = 0.02;

    /** It must stay in the band for so long. */
    private static final double STAYS_SECONDS = 0.5;

    /** Calm for so long is calm again. */
    private static final double SETTLED_SECONDS = 1;

    /** Longest part of the calm speed after an event that the lasting droop is taken from. */
    private static final double DROOP_SECONDS = 8;

    /**
     * The speed is still on its way back if from one half of that to the other it comes back by more than a wander makes, than this share of the
     * dip, and than this share of the rest.
     */
    private static final double LASTING_SHARE = 0.001;

    private static final double OF_THE_DIP = 0.01;

    /** A return that slows down by less than this from one third of the time to the next tells nothing of its end. */
    private static final double MOST_SHARE = 0.6;

    private static final double ON_ITS_WAY = 0.1;

    /** An abrupt departure that is shorter is a blip, listed or not. */
    private static final double SHORT_SECONDS = 0.3;

    /** The events, in order, where no blips are known. */
    public List<LoadEvent> find(SpeedTrack track, List<Stretch> steady) {
        return find(track, steady, List.of());
    }

    /**
     * The events, in order.
     *
     * @param steady the steady stretches of the track, in order, none over a gap
     * @param blips where blips were found
     */
    public List<LoadEvent> find(SpeedTrack track, List<Stretch> steady, List<Stretch> blips) {
        List<LoadEvent> events = new ArrayList<>();
        for (SpeedGrid grid : SpeedGrid.of(track)) {
            new Search(grid, Levels.of(grid, steady), blips).addTo(events);
        }
        return events;
    }

    /** The search in one unbroken part. */
    private static final class Search {
        private final SpeedGrid grid;
        private final List<Stretch> blips;
        private final double[] smooth;
        private final double[] fine;
        private final double[] share;
        private final boolean[] barred;
        private final boolean[] steadily;
        private final double limit;

        Search(SpeedGrid grid, List<Stretch> steady, List<Stretch> blips) {
            this.grid = grid;
            this.blips = blips;
            Swings swings = new Swings(grid);
            this.smooth = swings.smooth();
            this.fine = grid.smooth(Departure.FINE_SECONDS);
            this.share = swings.share(steady);
            double swing = swings.limit();
            this.limit = Math.max(LEAST_SHARE, swing);
            this.barred = new boolean[grid.cells()];
            this.steadily = new boolean[grid.cells()];
            mark(steady);
            for (Transition transition : Transition.between(grid, steady)) {
                boolean step = transition.isStep(smooth, swing);
                for (int c = transition.firstCell(); c < transition.lastCell(); c++) {
                    share[c] = smooth[c] / transition.fromRpm() - 1;
                    barred[c] = step;
                }
            }
        }

        private void mark(List<Stretch> steady) {
            for (Stretch stretch : steady) {
                if (grid.holds(stretch)) {
                    Arrays.fill(
                            steadily, grid.cellAt(stretch.fromSeconds()), grid.cellAt(stretch.toSeconds()) + 1, true);
                }
            }
        }

        void addTo(List<LoadEvent> events) {
            int c = 0;
            while (c < share.length) {
                if (barred[c] || Math.abs(share[c]) <= limit) {
                    c++;
                    continue;
                }
                int to = c;
                int peak = c;
                while (to < share.length && share[to] * share[c] > 0) {
                    peak = Math.abs(share[to]) > Math.abs(share[peak]) ? to : peak;
                    to++;
                }
                event(c, peak).ifPresent(events::add);
                c = to;
            }
        }

        /** Whether the departure over the limit at a cell, largest at another, is an event, and its figures. */
        private Optional<LoadEvent> event(int first, int peak) {
            Departure departure = new Departure(grid, smooth, fine, first, peak);
            if (!isWhole(departure) || belongsToStep(departure) || !departure.leavesLevel(limit) || isBlip(departure)) {
                return Optional.empty();
            }
            int calm = calmAfter(peak);
            int end = disturbedAfter(calm);
            double dip = 100 * (1 - departure.extremeRpm() / departure.levelRpm());
            OptionalDouble droop = droop(departure, calm, end);
            boolean furtherYet = droop.isPresent() && droop.getAsDouble() * Math.signum(dip) > Math.abs(dip);
            return Optional.of(new LoadEvent(
                    departure.onsetSeconds(),
                    furtherYet ? droop.getAsDouble() : dip,
                    recovery(departure, calm),
                    droop));
        }

        /**
         * Whether it is all there: its extreme is not where the track breaks off, and it is as large, or half as large, when
         * seen from the level of the seconds about it; else its beginning lies in something else.
         */
        private boolean isWhole(Departure departure) {
            double away = departure.extremeRpm() / departure.levelRpm() - 1;
            return departure.peakCell() < share.length - cells(Swings.SMOOTH_SECONDS)
                    && share[departure.peakCell()] * Math.signum(away) >= 0.5 * Math.abs(away);
        }

        private boolean belongsToStep(Departure departure) {
            for (int c = departure.onsetCell(); c <= departure.peakCell(); c++) {
                if (barred[c]) {
                    return true;
                }
            }
            return false;
        }

        private boolean isBlip(Departure departure) {
            double onset = departure.onsetSeconds();
            double extreme = grid.timeSeconds(departure.peakCell());
            boolean known = blips.stream().anyMatch(b -> b.fromSeconds() < extreme && b.toSeconds() > onset);
            return departure.isAbrupt(limit)
                    && (known
                            || departure.isUp()
                            || departure.halfSeconds() < SHORT_SECONDS
                            || !steadily[grid.cellAt(onset)]);
        }

        /** Time from the beginning to the last cell outside the band about the old level, before it is calm. */
        private OptionalDouble recovery(Departure departure, int calm) {
            int last = Math.min(share.length, calm + cells(SETTLED_SECONDS)) - 1;
            int outside = last;
            while (outside > departure.onsetCell()
                    && Math.abs(smooth[outside] / departure.levelRpm() - 1) <= RECOVERED_SHARE) {
                outside--;
            }
            if (last - outside < cells(STAYS_SECONDS)) {
                return OptionalDouble.empty();
            }
            return OptionalDouble.of(
                    outside == departure.onsetCell()
                            ? 0
                            : Math.max(0, grid.timeSeconds(outside + 0.5) - departure.onsetSeconds()));
        }

        /**
         * The later half of some calm seconds that follow is taken as lasting: the first at which the speed is no longer on its way back.
         * If it is so to the end, where it goes to, or nothing if that is not to be seen.
         */
        private OptionalDouble droop(Departure departure, int calm, int end) {
            if (end - calm < cells(SETTLED_SECONDS)) {
                return OptionalDouble.empty();
            }
            double dip = Math.abs(1 - departure.extremeRpm() / departure.levelRpm());
            double least = Math.max(LASTING_SHARE, OF_THE_DIP * dip);
            int width = Math.min(end - calm, cells(DROOP_SECONDS));
            double level = departure.levelRpm();
            for (int from = calm; from + width <= end; from += Math.max(1, width / 4)) {
                int middle = from + width / 2;
                double first = 1 - grid.level(from, middle) / level;
                double then = 1 - grid.level(middle, from + width) / level;
                double back = (first - then) * Math.signum(first);
                if (Math.abs(then) <= LASTING_SHARE || back <= Math.max(least, ON_ITS_WAY * Math.abs(then))) {
                    return OptionalDouble.of(100 * then);
                }
            }
            return towards(level, end - width, width);
        }

        /** Where a speed that is on its way goes to, if it slows down from third to third of the cells as an exponential does. */
        private OptionalDouble towards(double level, int from, int width) {
            int third = width / 3;
            double a = 1 - grid.level(from, from + third) / level;
            double b = 1 - grid.level(from + third, from + 2 * third) / level;
            double c = 1 - grid.level(from + 2 * third, from + width) / level;
            double share = (b - c) / (a - b);
            return share > 0 && share < MOST_SHARE
                    ? OptionalDouble.of(100 * (c - (b - c) * share / (1 - share)))
                    : OptionalDouble.empty();
        }

        /** The first cell after a peak from which on the speed is within its swings for a second; the end if there is none. */
        private int calmAfter(int peak) {
            int calm = 0;
            for (int c = peak; c < share.length && !barred[c]; c++) {
                calm = steadily[c] && Math.abs(share[c]) <= limit ? calm + 1 : 0;
                if (calm >= cells(SETTLED_SECONDS)) {
                    return c - calm + 1;
                }
            }
            return share.length;
        }

        /** The first cell after a calm one where it is calm no more. */
        private int disturbedAfter(int calm) {
            int c = calm;
            while (c < share.length && !barred[c] && steadily[c] && Math.abs(share[c]) <= limit) {
                c++;
            }
            return c;
        }

        private static int cells(double seconds) {
            return (int) Math.round(seconds / SpeedGrid.CELL_SECONDS);
        }
    }
}
