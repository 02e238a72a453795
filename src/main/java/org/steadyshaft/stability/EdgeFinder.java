package org.steadyshaft.stability;

import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;

/**
 * Finds the jumps in a departure of the speed from its level. A blip begins with a jump, since a triac that conducts when it
 * should not does so for one half-cycle of the mains; what comes back comes back slowly, and what leaves slowly is no blip.
 * The size of a blip is that of its jump: from the speed just before it, which may still be returning from the blip before,
 * to the peak.
 */
final class EdgeFinder {
    /** A jump is over within this time; the filter of the crossings spreads it over two cycles. */
    private static final double JUMP_SECONDS = 0.06;

    /** The speed just before a jump is the median over this time. */
    private static final double BEFORE_SECONDS = 0.06;

    /** A jump may be this much smaller than the limit for departures, which also counts what remained of another. */
    private static final double LEAST_SHARE = 0.85;

    /** A jump against the slope before and after it. */
    private static final double SUDDEN = 2.5;

    private final SpeedTrack track;
    private final SteadySpeed.Piece piece;
    private final double[] rest;
    private final double least;
    private final int jump;
    private final int before;
    private final int offset;

    /**
     * @param rest deviations of the piece's cycles without ripple lines [%]
     * @param limitPercent smallest departure that is no noise
     */
    EdgeFinder(SpeedTrack track, SteadySpeed.Piece piece, double[] rest, double limitPercent) {
        this.track = track;
        this.piece = piece;
        this.rest = rest;
        this.least = LEAST_SHARE * limitPercent;
        this.jump = (int) Math.max(2, Math.round(JUMP_SECONDS / piece.cycleSeconds()));
        this.before = (int) Math.max(3, Math.round(BEFORE_SECONDS / piece.cycleSeconds()));
        this.offset = track.firstNotBefore(piece.stretch.fromSeconds());
    }

    void addBlips(List<BlipDetector.Departure> departures, List<Blip> blips) {
        for (BlipDetector.Departure departure : departures) {
            add(departure, blips);
        }
    }

    private void add(BlipDetector.Departure departure, List<Blip> blips) {
        int sign = departure.up() ? 1 : -1;
        int end = Math.min(rest.length - 1, departure.to());
        int first = Math.max(0, departure.from() - jump);
        int start = nextJump(first, end, sign);
        while (start >= 0) {
            int peak = peak(start, sign);
            int next = nextJump(Math.max(peak + 1, start + jump), end, sign);
            double level = Robust.median(Arrays.copyOfRange(rest, Math.max(first, start - before + 1), start + 1));
            double size = rest[peak] - level;
            if (sign * size >= least) {
                int last = Math.max(peak, next >= 0 ? next : end);
                blips.add(new Blip(
                        track.toSeconds(offset + Math.min(start, peak - 1)),
                        track.timeSeconds(offset + peak),
                        track.toSeconds(offset + last),
                        size,
                        sign > 0 ? BlipCause.EXTRA_CONDUCTION : BlipCause.MISSED_FIRING_OR_LOAD_TOUCH));
            }
            start = next;
        }
    }

    /** Last cycle before the next jump, the steepest of its neighbourhood; -1 without one, since 0 is a cycle. */
    private int nextJump(int from, int end, int sign) {
        for (int i = from; i + jump <= end; i++) {
            if (rise(i, sign) < least) {
                continue;
            }
            int best = i;
            for (int j = i; j < Math.min(i + 2 * jump, end - jump + 1); j++) {
                best = rise(j, sign) > rise(best, sign) ? j : best;
            }
            if (isSudden(best, sign)) {
                return best;
            }
            i = best;
        }
        return -1;
    }

    /** Whether the speed moved much less in the same time before and after: else it is a slope, a hand on the clay. */
    private boolean isSudden(int i, int sign) {
        double beforeIt = i - jump >= 0 ? rise(i - jump, sign) : 0;
        double afterIt = i + 2 * jump < rest.length ? rise(i + jump, sign) : 0;
        return rise(i, sign) > SUDDEN * Math.max(beforeIt, afterIt);
    }

    private double rise(int i, int sign) {
        return sign * (rest[i + jump] - rest[i]);
    }

    private int peak(int start, int sign) {
        int peak = start + 1;
        for (int i = start + 1; i <= Math.min(rest.length - 1, start + 2 * jump); i++) {
            peak = sign * rest[i] > sign * rest[peak] ? i : peak;
        }
        return peak;
    }
}
