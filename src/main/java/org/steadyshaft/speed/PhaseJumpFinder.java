package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds places where the recorder lost samples without a trace: the phase of the tacho jumps, so one cycle, or what the
 * filter makes of it, is too long or too short, and right beside it the speed is what it was. A shaft with inertia cannot do
 * that: after a true jump of its speed it takes many cycles to come back.
 */
public final class PhaseJumpFinder {
    /** The filter spreads a jump over this many cycles to either side. */
    private static final int SPREAD_CYCLES = 3;

    /** Cycles beyond that which must be undisturbed on both sides. */
    private static final int CALM_CYCLES = 4;

    /** The departure against the robust spread of cycle speeds around it, and against the speed. */
    private static final double SIGMAS = 12;

    private static final double LEAST_SHARE = 0.012;

    /** The whole shift of the phase against the largest departure of a cycle; a needle near a crossing shifts nothing for good. */
    private static final double LEAST_NET = 0.8;

    /** The mean beside the jump may keep this share of its size. */
    private static final double CALM_SHARE = 0.12;

    private static final int WINDOW = 40;

    /** At fewer cycles a second a shaft could come back within the spread of the filter. */
    private static final double SLOWEST_HZ = 25;

    /** The places, widened to all the cycles that they disturb. */
    public List<Stretch> find(SpeedTrack track) {
        List<Stretch> jumps = new ArrayList<>();
        int reach = SPREAD_CYCLES + CALM_CYCLES;
        for (int i = reach; i < track.size() - reach; i++) {
            if (track.durationSeconds(i) * SLOWEST_HZ < 1 && isPeak(track, i) && isJump(track, i)) {
                jumps.add(new Stretch(track.fromSeconds(i - SPREAD_CYCLES), track.toSeconds(i + SPREAD_CYCLES)));
                i += reach;
            }
        }
        return jumps;
    }

    /** Cheap look first: a cycle that departs from the mean of those beside it, and the most of its neighbourhood. */
    private static boolean isPeak(SpeedTrack track, int i) {
        double away = departure(track, i);
        if (away < LEAST_SHARE) {
            return false;
        }
        for (int j = i - SPREAD_CYCLES; j <= i + SPREAD_CYCLES; j++) {
            if (departure(track, j) > away) {
                return false;
            }
        }
        return true;
    }

    private static double departure(SpeedTrack track, int i) {
        int before = Math.max(0, i - SPREAD_CYCLES - 1);
        int after = Math.min(track.size() - 1, i + SPREAD_CYCLES + 1);
        double level = 0.5 * (track.speedRpm(before) + track.speedRpm(after));
        return Math.abs(track.speedRpm(i) / level - 1);
    }

    private static boolean isJump(SpeedTrack track, int i) {
        for (int j = i - SPREAD_CYCLES - CALM_CYCLES + 1; j <= i + SPREAD_CYCLES + CALM_CYCLES; j++) {
            if (!track.follows(j)) {
                return false;
            }
        }
        double before = mean(track, i - SPREAD_CYCLES - CALM_CYCLES, i - SPREAD_CYCLES);
        double after = mean(track, i + SPREAD_CYCLES + 1, i + SPREAD_CYCLES + CALM_CYCLES + 1);
        double size = Math.abs(track.speedRpm(i) - 0.5 * (before + after));
        double[] around = new double[2 * WINDOW];
        int filled = 0;
        for (int j = Math.max(1, i - WINDOW); j < Math.min(track.size(), i + WINDOW); j++) {
            around[filled++] = track.speedRpm(j) - track.speedRpm(j - 1);
        }
        double sigma = Robust.sigma(Arrays.copyOf(around, filled));
        double level = 0.5 * (before + after);
        double net = 0;
        for (int j = i - SPREAD_CYCLES; j <= i + SPREAD_CYCLES; j++) {
            net += track.speedRpm(j) - level;
        }
        return size > SIGMAS * sigma
                && Math.abs(after - before) < CALM_SHARE * size + 2 * sigma
                && Math.abs(net) > LEAST_NET * size;
    }

    private static double mean(SpeedTrack track, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += track.speedRpm(i);
        }
        return sum / (to - from);
    }
}
