package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Tells the stretches at one set speed from run-up, steps and slow-down. The level of the speed is its running median over
 * some seconds: it jumps with a step and climbs with a run-up, but a blip that comes back does not move it, and a swing about
 * a level hardly does. Where the level changes by more than a share of itself within a short while, the speed is changing;
 * the tail of such a change, where the speed still differs from the level it goes to, is cut off too.
 */
public final class SteadyFinder {
    /** The speed is looked at in blocks of this length, each by its median. */
    private static final double BLOCK_SECONDS = 0.25;

    /** The level is a median over this time: blips that are over in less than half of it do not move it. */
    private static final double LEVEL_SECONDS = 6;

    /** Change of the level over {@link #WHILE_SECONDS} that is no longer steady running. */
    private static final double CHANGE = 0.02;

    /** In a quiet record a smaller one is seen: so many times the usual change, but no less than this. */
    private static final double SMALLEST_CHANGE = 0.008;

    private static final double CLEAR = 10;

    /**
     * A block at an end of the row is no steady running if it is this far from the level, what a hand can just feel, and so many robust
     * deviations: a run-up's last part, or the tail of something before the recording.
     */
    private static final double AWAY = 0.01;

    private static final double AWAY_SIGMAS = 6;
    private static final double WHILE_SECONDS = 1.5;

    /** At an end that borders on a change, a block may differ this much from the level further in; else it is cut off. */
    private static final double EDGE_CHANGE = 0.005;

    /** In a swing that shakes the median every block differs; one this many robust deviations off is outside of it. */
    private static final double SWING_SIGMAS = 2;

    /** If less of the recording than this is steady, a large swing may be the reason. */
    private static final double ENOUGH = 0.3;

    private static final double SHORTEST_SECONDS = 2;
    private static final int FEWEST_CYCLES = 12;

    /** The steady stretches, in order; none reaches over a gap. */
    public List<Stretch> find(SpeedTrack track) {
        List<Stretch> steady = find(track, false);
        double wholeSeconds = track.toSeconds(track.size() - 1) - track.fromSeconds(0);
        if (total(steady) < ENOUGH * wholeSeconds) {
            List<Stretch> swinging = find(track, true);
            return total(swinging) > total(steady) ? swinging : steady;
        }
        return steady;
    }

    private static double total(List<Stretch> stretches) {
        return stretches.stream().mapToDouble(Stretch::durationSeconds).sum();
    }

    /** @param smooth whether the level is smoothed once more, for a swing so large that it shakes the median */
    private static List<Stretch> find(SpeedTrack track, boolean smooth) {
        List<Stretch> steady = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= track.size(); i++) {
            if (i == track.size() || !track.follows(i)) {
                if (i - from >= FEWEST_CYCLES) {
                    new Span(track, from, i, smooth).addTo(steady);
                }
                from = i;
            }
        }
        double wholeSeconds = track.toSeconds(track.size() - 1) - track.fromSeconds(0);
        double shortest = Math.min(SHORTEST_SECONDS, 0.5 * wholeSeconds);
        steady.removeIf(stretch -> stretch.durationSeconds() < shortest || cycles(track, stretch) < FEWEST_CYCLES);
        return steady;
    }

    private static int cycles(SpeedTrack track, Stretch stretch) {
        return track.firstNotBefore(stretch.toSeconds()) - track.firstNotBefore(stretch.fromSeconds());
    }

    /** An unbroken row of cycles, in blocks. */
    private static final class Span {
        private final double fromSeconds;
        private final double blockSeconds;
        private final double[] block;
        private final double[] level;
        private final double changeLimit;
        private final boolean[] away;

        /** A block this far from those further in is cut off at a change. */
        private final double edge;

        Span(SpeedTrack track, int from, int to, boolean smooth) {
            this.fromSeconds = track.fromSeconds(from);
            double seconds = track.toSeconds(to - 1) - fromSeconds;
            int most = Math.max(1, (to - from) / 3);
            int count = (int) Math.max(1, Math.min(most, Math.floor(seconds / BLOCK_SECONDS)));
            this.blockSeconds = seconds / count;
            this.block = new double[count];
            int start = from;
            for (int b = 0; b < count; b++) {
                int end = b == count - 1 ? to : track.firstNotBefore(fromSeconds + (b + 1) * blockSeconds);
                end = Math.max(start + 1, Math.min(to, end));
                block[b] = Robust.median(track.speedsRpm(start, end));
                start = Math.min(end, to - 1);
            }
            int half = (int) Math.round(0.5 * LEVEL_SECONDS / blockSeconds);
            int used = Math.max(1, Math.min(half, count / 4));
            double[] medians = Robust.runningMedian(block, used);
            this.level = smooth ? runningMean(medians, used) : medians;
            this.changeLimit = changeLimit();
            this.away = away();
            this.edge = smooth ? Math.max(EDGE_CHANGE, SWING_SIGMAS * Robust.sigma(rests())) : EDGE_CHANGE;
        }

        private static double[] runningMean(double[] values, int half) {
            double[] means = new double[values.length];
            for (int i = 0; i < values.length; i++) {
                int reach = Math.min(half, Math.min(i, values.length - 1 - i));
                double sum = 0;
                for (int j = i - reach; j <= i + reach; j++) {
                    sum += values[j];
                }
                means[i] = sum / (2 * reach + 1);
            }
            return means;
        }

        void addTo(List<Stretch> steady) {
            int from = 0;
            for (int b = 0; b <= block.length; b++) {
                if (b == block.length || changesAt(b)) {
                    add(steady, from, b);
                    from = b + 1;
                }
            }
        }

        private boolean changesAt(int b) {
            return away[b] || change(b) > changeLimit;
        }

        /** Change of the level around a block, as a share of it. */
        private double change(int b) {
            int reach = (int) Math.max(1, Math.round(0.5 * WHILE_SECONDS / blockSeconds));
            double before = level[Math.max(0, b - reach)];
            double after = level[Math.min(level.length - 1, b + reach)];
            return Math.abs(after - before) / Math.min(before, after);
        }

        /** What the level usually changes by, many times over: a quiet record shows small steps, a wandering one large ones only. */
        private double changeLimit() {
            double[] changes = new double[level.length];
            for (int b = 0; b < changes.length; b++) {
                changes[b] = change(b);
            }
            return Math.max(SMALLEST_CHANGE, Math.min(CHANGE, CLEAR * Robust.median(changes)));
        }

        /**
         * Blocks from either end of the row that are far from the level: a run-up or run-down shorter than half the median's time, which
         * it takes for a blip.
         */
        private boolean[] away() {
            double[] rest = rests();
            double limit = Math.max(AWAY, AWAY_SIGMAS * Robust.sigma(rest));
            boolean[] away = new boolean[block.length];
            for (int b = 0; b < rest.length && Math.abs(rest[b]) > limit; b++) {
                away[b] = true;
            }
            for (int b = rest.length - 1; b >= 0 && Math.abs(rest[b]) > limit; b--) {
                away[b] = true;
            }
            return away;
        }

        /** What the blocks differ from the level, as shares of it. */
        private double[] rests() {
            double[] rest = new double[block.length];
            for (int b = 0; b < rest.length; b++) {
                rest[b] = block[b] / level[b] - 1;
            }
            return rest;
        }

        private void add(List<Stretch> steady, int from, int to) {
            int first = from;
            int end = to;
            int inside = (int) Math.max(2, Math.round(0.5 * LEVEL_SECONDS / blockSeconds));
            while (from > 0 && end - first > 2 && differs(first, first + 1, Math.min(end, first + inside))) {
                first++;
            }
            while (to < block.length && end - first > 2 && differs(end - 1, Math.max(first, end - inside), end - 1)) {
                end--;
            }
            if (end > first) {
                steady.add(new Stretch(fromSeconds + first * blockSeconds, fromSeconds + end * blockSeconds));
            }
        }

        /** Whether a block differs from the median of those between two others. */
        private boolean differs(int b, int from, int to) {
            double inside = Robust.median(Arrays.copyOfRange(block, from, to));
            return Math.abs(block[b] / inside - 1) > edge;
        }
    }
}
