package org.steadyshaft.speed;

import java.util.Arrays;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;

/**
 * Counts places at which a steady frequency becomes another steady one almost at once, as from one note of a tune to the next. A shaft has
 * inertia: its speed may leave a level in a moment but settles on another over a time, so a jump between two levels is not its own.
 */
public final class NoteJumps {
    /** Length of the steady parts on both sides, and cycles in them at least. */
    private static final double STEADY_SECONDS = 0.1;

    private static final int FEWEST_CYCLES = 8;

    /** In a steady part the middle four fifths of the cycles lie within this share (a vibrato has 3 %). */
    private static final double STEADY = 0.05;

    /** A jump exceeds that spread, or what a ramp makes of it, by this factor. */
    private static final double BEYOND_SPREAD = 2.5;

    /** A jump is larger than this share (a semitone has 6 %) and quicker than this. */
    private static final double LEAST_JUMP = 0.04;

    private static final double JUMP_SECONDS = 0.06;

    /** From one place that is looked at to the next. */
    private static final double STRIDE_SECONDS = 0.01;

    private NoteJumps() {}

    /** The number of jumps in a recording. */
    public static int count(CycleTimes cycles) {
        int size = cycles.cycles();
        double[] from = new double[size];
        double[] seconds = new double[size];
        int at = 0;
        for (int row = 0; row < cycles.segments(); row++) {
            for (int i = cycles.firstOf(row); i + 1 < cycles.endOf(row); i++) {
                from[at] = cycles.timeSeconds(i);
                seconds[at++] = cycles.timeSeconds(i + 1) - cycles.timeSeconds(i);
            }
        }
        int jumps = 0;
        double next = Double.NEGATIVE_INFINITY;
        for (int i = FEWEST_CYCLES; i < size; i++) {
            if (from[i] < next) {
                continue;
            }
            next = from[i] + STRIDE_SECONDS;
            int after = mayBeJump(from, i) ? jump(from, seconds, i) : 0;
            if (after > 0) {
                jumps++;
                next = from[after];
            }
        }
        return jumps;
    }

    /** A quick look: whether the mean length of a cycle behind a place differs from that before it. */
    private static boolean mayBeJump(double[] from, int i) {
        int low = atOrAfter(from, from[i] - STEADY_SECONDS);
        int begin = atOrAfter(from, from[i] + JUMP_SECONDS);
        int end = atOrAfter(from, from[i] + JUMP_SECONDS + STEADY_SECONDS);
        if (end - begin < 2 || i - low < 2) {
            // fewer than two cycles in a tenth of a second: the long look takes eight of them
            return true;
        }
        double before = (from[i] - from[low]) / (i - low);
        double after = (from[Math.min(from.length - 1, end)] - from[begin]) / (Math.min(from.length - 1, end) - begin);
        return Math.abs(after / before - 1) > 0.5 * LEAST_JUMP;
    }

    private static int atOrAfter(double[] from, double time) {
        int found = Arrays.binarySearch(from, time);
        return found >= 0 ? found : -found - 1;
    }

    /** The first cycle of another steady part that begins soon after cycle {@code i - 1} has ended one; 0 where there is none. */
    private static int jump(double[] from, double[] seconds, int i) {
        Level before = level(from, seconds, i, -1);
        if (before.spread >= STEADY) {
            return 0;
        }
        double end = from[i - 1] + seconds[i - 1];
        double next = Double.NEGATIVE_INFINITY;
        for (int j = i; j < from.length && from[j] - end < JUMP_SECONDS; j++) {
            if (from[j] < next) {
                continue;
            }
            next = from[j] + STRIDE_SECONDS;
            Level after = level(from, seconds, j, 1);
            double least = Math.max(LEAST_JUMP, BEYOND_SPREAD * Math.max(before.spread, after.spread));
            if (after.spread < STEADY && Math.abs(after.seconds / before.seconds - 1) > least) {
                return j;
            }
        }
        return 0;
    }

    /** Length of a cycle in a part, and its spread as a share; above all limits where there is no such part. */
    private record Level(double seconds, double spread) {
        static final Level NONE = new Level(1, Double.MAX_VALUE);
    }

    /** The part that ends before a cycle or begins with it. */
    private static Level level(double[] from, double[] seconds, int at, int direction) {
        int low = at;
        int high = at;
        if (direction < 0) {
            while (low > 0
                    && (high - low < FEWEST_CYCLES
                            || from[high - 1] + seconds[high - 1] - from[low] < STEADY_SECONDS)) {
                low--;
            }
        } else {
            while (high < from.length
                    && (high - low < FEWEST_CYCLES
                            || from[high - 1] + seconds[high - 1] - from[low] < STEADY_SECONDS)) {
                high++;
            }
        }
        double span = high > low ? from[high - 1] + seconds[high - 1] - from[low] : 0;
        double[] part = Arrays.copyOfRange(seconds, low, high);
        if (part.length < FEWEST_CYCLES || span < STEADY_SECONDS) {
            return Level.NONE;
        }
        double sum = Arrays.stream(part).sum();
        Arrays.sort(part);
        double median = Robust.median(part);
        double spread = part[part.length - 1 - part.length / 10] - part[part.length / 10];
        boolean unbroken = span < 1.05 * sum;
        return unbroken ? new Level(median, spread / median) : Level.NONE;
    }
}
