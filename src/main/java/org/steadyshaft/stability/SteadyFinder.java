package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Tells the stretches at one set speed from run-up, steps and slow-down: at every place the median speed over a while
 * before is compared with that over the same while after; where they differ by more than a share of the speed, the speed
 * is changing. A swing about a constant speed is not a change: if hardly anything passes, the while is made longer.
 */
public final class SteadyFinder {
    /** Change between two neighbouring whiles that is no longer steady running. */
    private static final double CHANGE = 0.02;

    private static final double STEP_SECONDS = 0.25;
    private static final double SHORT_WHILE_SECONDS = 1.5;
    private static final double LONG_WHILE_SECONDS = 8;
    private static final double SHORTEST_SECONDS = 2;
    /** At an end that borders on a change, a short while may differ this much from the next; else the stretch is cut. */
    private static final double EDGE_CHANGE = 0.002;

    private static final int FEWEST_CYCLES = 12;

    /** Share of the recording that must pass with the short while. */
    private static final double ENOUGH = 0.3;

    /** The steady stretches, in order; none reaches over a gap. */
    public List<Stretch> find(SpeedTrack track) {
        List<Stretch> steady = find(track, SHORT_WHILE_SECONDS);
        if (total(steady) < ENOUGH * total(unbroken(track))) {
            List<Stretch> swinging = find(track, LONG_WHILE_SECONDS);
            return total(swinging) > total(steady) ? swinging : steady;
        }
        return steady;
    }

    private static double total(List<Stretch> stretches) {
        return stretches.stream().mapToDouble(Stretch::durationSeconds).sum();
    }

    private List<Stretch> find(SpeedTrack track, double whileSeconds) {
        List<Stretch> steady = new ArrayList<>();
        for (Stretch span : unbroken(track)) {
            double reach = Math.min(whileSeconds, span.durationSeconds() / 3);
            double wanted = Math.floor((span.durationSeconds() - 2 * reach) / STEP_SECONDS);
            int steps = (int) Math.max(1, Math.min(track.size(), wanted));
            double step = (span.durationSeconds() - 2 * reach) / steps;
            double from = span.fromSeconds();
            for (int i = 0; i <= steps; i++) {
                double here = span.fromSeconds() + reach + i * step;
                if (differs(track, here - reach, here, here + reach, CHANGE)) {
                    add(track, span, steady, from, i == 0 ? from : here - step);
                    from = i == steps ? span.toSeconds() : here + step;
                }
            }
            add(track, span, steady, from, span.toSeconds());
        }
        return steady;
    }

    /** Cuts off what is left of a change at an end that borders on one: the tail of a run-up, the first part of a step. */
    private static void add(
            SpeedTrack track, Stretch span, List<Stretch> steady, double fromSeconds, double toSeconds) {
        double from = fromSeconds;
        double to = toSeconds;
        boolean afterChange = from > span.fromSeconds();
        boolean beforeChange = to < span.toSeconds();
        while (afterChange
                && to - from > 4 * STEP_SECONDS
                && differs(track, from, from + STEP_SECONDS, from + 3 * STEP_SECONDS, EDGE_CHANGE)) {
            from += STEP_SECONDS;
        }
        while (beforeChange
                && to - from > 4 * STEP_SECONDS
                && differs(track, to - 3 * STEP_SECONDS, to - STEP_SECONDS, to, EDGE_CHANGE)) {
            to -= STEP_SECONDS;
        }
        int cycles = track.firstNotBefore(to) - track.firstNotBefore(from);
        double wholeSeconds = track.toSeconds(track.size() - 1) - track.fromSeconds(0);
        if (to - from >= Math.min(SHORTEST_SECONDS, 0.5 * wholeSeconds) && cycles >= FEWEST_CYCLES) {
            steady.add(new Stretch(from, to));
        }
    }

    /** Whether the median speeds before and after a place differ by more than a share; medians, so that blips do not count. */
    private static boolean differs(SpeedTrack track, double from, double middle, double to, double share) {
        OptionalDouble before = medianRpm(track, from, middle);
        OptionalDouble after = medianRpm(track, middle, to);
        return before.isPresent()
                && after.isPresent()
                && Math.abs(after.getAsDouble() - before.getAsDouble())
                        > share * Math.min(before.getAsDouble(), after.getAsDouble());
    }

    private static OptionalDouble medianRpm(SpeedTrack track, double fromSeconds, double toSeconds) {
        int from = track.firstNotBefore(fromSeconds);
        int to = track.firstNotBefore(toSeconds);
        if (to <= from) {
            return OptionalDouble.empty();
        }
        double[] speeds = new double[to - from];
        for (int i = from; i < to; i++) {
            speeds[i - from] = track.speedRpm(i);
        }
        return OptionalDouble.of(Robust.median(speeds));
    }

    private static List<Stretch> unbroken(SpeedTrack track) {
        List<Stretch> spans = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= track.size(); i++) {
            if (i == track.size() || !track.follows(i)) {
                spans.add(new Stretch(track.fromSeconds(from), track.toSeconds(i - 1)));
                from = i;
            }
        }
        return spans;
    }
}
