package org.steadyshaft.stability;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
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

    /** What comes no faster than a hand moves is called a blip only from this size on: the speed of any motor wanders so (our own). */
    private static final double LEAST_SLOW_PERCENT = 1;

    /** A cycle at this share of the largest counts as the peak. */
    private static final double NEARLY = 0.92;

    /** The filter spreads a jump over so many cycles more. */
    private static final int SPREAD_CYCLES = 2;

    private static final double MOST_MADE_GOOD = 0.18;

    private static final double SMOOTH_SECONDS = 0.006;

    private final SpeedTrack track;
    private final SteadySpeed.Piece piece;
    private final BlipJudge judge;
    private final double[] rest;
    private final double least;
    private final int jump;
    private final int before;
    private final int offset;
    private final int smoothHalf;

    /**
     * @param rest deviations of the piece's cycles without ripple lines [%]
     * @param limitPercent smallest departure that is no noise
     * @param judge names the causes
     */
    EdgeFinder(SpeedTrack track, SteadySpeed.Piece piece, double[] rest, double limitPercent, BlipJudge judge) {
        this.judge = judge;
        this.track = track;
        this.piece = piece;
        this.rest = rest;
        this.least = LEAST_SHARE * limitPercent;
        this.jump = (int) Math.max(2, Math.round(JUMP_SECONDS / piece.cycleSeconds()));
        this.before = (int) Math.max(3, Math.round(BEFORE_SECONDS / piece.cycleSeconds()));
        this.smoothHalf = (int) Math.floor(0.5 * SMOOTH_SECONDS / piece.cycleSeconds());
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
        OptionalInt jumpBefore = nextJump(first, end, sign);
        while (jumpBefore.isPresent()) {
            int start = jumpBefore.getAsInt();
            int peak = peak(start, sign);
            OptionalInt next = nextJump(Math.max(peak + 1, start + jump), end, sign);
            double level = Robust.median(Arrays.copyOfRange(rest, Math.max(first, start - before + 1), start + 1));
            double size = height(peak, sign) - level;
            if (sign * size >= least) {
                int last = Math.max(peak, next.orElse(end));
                Blip blip = blip(Math.min(start, peak - 1), peak, last, level, size);
                if (Math.abs(size) >= LEAST_SLOW_PERCENT || judge.isSudden(blip.shape(), piece.cycleSeconds())) {
                    blips.add(blip);
                }
            }
            jumpBefore = next;
        }
    }

    private Blip blip(int start, int peak, int last, double level, double size) {
        BlipShape shape = judge.shape(piece, rest, start, peak, last, level);
        double from = track.toSeconds(offset + start);
        double to = track.toSeconds(offset + last);
        BlipCause cause = judge.cause(shape, size > 0, to - from, piece.cycleSeconds());
        return new Blip(from, track.timeSeconds(offset + peak), to, size * atItsStart(shape), shape, cause);
    }

    /**
     * What the mean over a cycle takes off a peak that returns with a time constant tau is made good: on average the peak lies half a
     * cycle T before the middle of the cycle that shows it, so exp(T / (2 tau)). Where that is much, the peak is not told better than
     * a fifth.
     */
    private double atItsStart(BlipShape shape) {
        double tau = shape.recoverySeconds().orElse(Double.POSITIVE_INFINITY);
        return Math.exp(Math.min(MOST_MADE_GOOD, 0.5 * piece.cycleSeconds() / tau));
    }

    /** Last cycle before the next jump, the steepest of its neighbourhood. */
    private OptionalInt nextJump(int from, int end, int sign) {
        for (int i = from; i + jump <= end; i++) {
            if (rise(i, sign) < least) {
                continue;
            }
            int best = i;
            for (int j = i; j < Math.min(i + 2 * jump, end - jump + 1); j++) {
                best = rise(j, sign) > rise(best, sign) ? j : best;
            }
            if (isSudden(best, sign)) {
                return OptionalInt.of(best);
            }
            i = best;
        }
        return OptionalInt.empty();
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

    /**
     * Where the jump has come to its peak: the first cycle that reaches nearly the largest value within the jump's time. The largest
     * itself may lie anywhere on a slow return, wherever noise puts it.
     */
    private int peak(int start, int sign) {
        int last = Math.min(rest.length - 1, start + jump + SPREAD_CYCLES);
        int largest = start + 1;
        for (int i = start + 1; i <= last; i++) {
            largest = sign * smooth(i) > sign * smooth(largest) ? i : largest;
        }
        double before = smooth(start);
        for (int i = start + 1; i < largest; i++) {
            if (sign * (smooth(i) - before) >= NEARLY * sign * (smooth(largest) - before)) {
                return i;
            }
        }
        return largest;
    }

    /** Size of a jump to a peak: the mean of the largest over a few milliseconds, so that noise on many short cycles adds nothing. */
    private double height(int peak, int sign) {
        double highest = smooth(peak);
        for (int i = peak; i <= Math.min(rest.length - 1, peak + SPREAD_CYCLES); i++) {
            highest = sign * smooth(i) > sign * highest ? smooth(i) : highest;
        }
        return highest;
    }

    /** Mean over so many cycles as last a few milliseconds; where cycles are longer, the cycle itself. */
    private double smooth(int i) {
        int from = Math.max(0, i - smoothHalf);
        int to = Math.min(rest.length - 1, i + smoothHalf);
        double sum = 0;
        for (int j = from; j <= to; j++) {
            sum += rest[j];
        }
        return sum / (to - from + 1);
    }
}
