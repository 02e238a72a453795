package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Stretch;

/**
 * Finds single cycles, or pairs, far too long or too short between cycles that all agree. No shaft does that: it would have to change its
 * speed by as much and be back within a cycle, without a tail. There the recorder lost samples or wrote some twice. Small slips do not show
 * here; those are told in the waveform.
 */
public final class SlipFinder {
    /** Cycles looked at on either side. */
    private static final int BESIDE = 4;

    /** Smaller slips [cycles] in one cycle, or spread over two by the filter before the crossings, may be the work of a fast blip. */
    private static final double[] LEAST = {0.08, 0.12};

    /** The neighbours differ by no more than this share of the slip, and the means of both sides by no more than that. */
    private static final double NEIGHBOURS = 0.3;

    private static final double SIDES = 0.12;

    /** Behind a blip two cycles more are off by this share of it at least: what returns so fast that they are not is no shaft. */
    private static final double TAIL = 0.04;

    private static final int TAIL_CYCLES = 2;

    /** A crossing that was missed makes whole cycles, within this. */
    private static final double WHOLE = 0.08;

    /** A slip comes alone: where one cycle in so many is odd, it is the tacho's own. */
    private static final int LEAST_CYCLES_A_SLIP = 50;

    private final int polePairs;

    public SlipFinder(int polePairs) {
        this.polePairs = polePairs;
    }

    /**
     * A slip.
     *
     * @param where from the crossing before it to the one behind it
     * @param cycles by how much the tacho's phase jumps ahead, whole cycles not counted; from -0.5 to 0.5
     */
    public record Slip(Stretch where, double cycles) {}

    /** The slips in order; none where odd cycles are the rule. */
    public List<Slip> find(CycleTimes cycles) {
        List<Slip> slips = new ArrayList<>();
        for (int segment = 0; segment < cycles.segments(); segment++) {
            int first = cycles.firstOf(segment);
            int count = cycles.cyclesOf(segment);
            for (int i = BESIDE; i + BESIDE < count; i++) {
                for (int wide = 1; wide <= LEAST.length && i + wide + BESIDE <= count; wide++) {
                    double off = off(cycles, first + i, wide);
                    if (Math.abs(off) >= LEAST[wide - 1] && !isOfTheTurn(cycles, first, count, i, wide, off)) {
                        slips.add(new Slip(
                                new Stretch(cycles.timeSeconds(first + i), cycles.timeSeconds(first + i + wide)),
                                Math.rint(off) - off));
                        i += wide;
                    }
                }
            }
        }
        return slips.size() * LEAST_CYCLES_A_SLIP > cycles.cycles() ? List.of() : slips;
    }

    /** By how much one cycle, or a pair, is too long, in cycles, if its neighbours agree; else 0. */
    private static double off(CycleTimes cycles, int cycle, int wide) {
        double[] beside = new double[2 * BESIDE];
        double before = 0;
        double after = 0;
        double tail = 0;
        for (int k = 0; k < BESIDE; k++) {
            beside[k] = length(cycles, cycle - 1 - k);
            beside[BESIDE + k] = length(cycles, cycle + wide + k);
            before += beside[k] / BESIDE;
            after += beside[BESIDE + k] / BESIDE;
            tail += k < TAIL_CYCLES ? beside[BESIDE + k] / TAIL_CYCLES : 0;
        }
        double swing = range(beside, BESIDE);
        Arrays.sort(beside);
        double usual = 0.5 * (beside[BESIDE - 1] + beside[BESIDE]);
        double off = (cycles.timeSeconds(cycle + wide) - cycles.timeSeconds(cycle)) / usual - wide;
        for (int k = 0; k < wide; k++) {
            if ((length(cycles, cycle + k) / usual - 1) * off < 0) {
                return 0;
            }
        }
        double size = Math.abs(off) * usual;
        double spread = Math.max(beside[2 * BESIDE - 1] - usual, usual - beside[0]);
        boolean isWhole = off > 0.5 && Math.abs(off - Math.rint(off)) < WHOLE;
        boolean hasTail = Math.signum(off) * (tail - before) > TAIL * size + 0.5 * swing;
        boolean agree = spread < NEIGHBOURS * size && Math.abs(after - before) < SIDES * size;
        return agree && !hasTail && !isWhole ? off : 0;
    }

    private static double range(double[] values, int count) {
        double least = values[0];
        double most = values[0];
        for (int k = 1; k < count; k++) {
            least = Math.min(least, values[k]);
            most = Math.max(most, values[k]);
        }
        return most - least;
    }

    private static double length(CycleTimes cycles, int crossing) {
        return cycles.timeSeconds(crossing + 1) - cycles.timeSeconds(crossing);
    }

    /** Whether the same cycles of the turns beside it are as odd: a weak magnet, or a missing one. */
    private boolean isOfTheTurn(CycleTimes cycles, int first, int count, int cycle, int wide, double off) {
        for (int turn : new int[] {-1, 1}) {
            int other = cycle + turn * polePairs;
            if (other >= BESIDE && other + wide + BESIDE <= count) {
                double same = off(cycles, first + other, wide);
                if (same * off > 0.25 * off * off) {
                    return true;
                }
            }
        }
        return false;
    }
}
