package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Stretch;

/**
 * Finds single cycles far too long or too short between cycles that all agree. No shaft does that: it would have to change its speed by as
 * much and be back within a cycle. There the recorder lost samples or wrote some twice. Small slips do not show here; those are told in the
 * waveform.
 */
public final class SlipFinder {
    /** Cycles looked at on either side. */
    private static final int BESIDE = 4;

    /** A smaller slip [cycles] may be the work of a fast blip of a slow tacho. */
    private static final double LEAST = 0.12;

    /** The neighbours differ by no more than this share of the slip, and the means of both sides by no more than that. */
    private static final double NEIGHBOURS = 0.3;

    private static final double SIDES = 0.12;

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
                double off = off(cycles, first, i);
                if (Math.abs(off) >= LEAST && !isOfTheTurn(cycles, first, count, i, off)) {
                    slips.add(new Slip(
                            new Stretch(cycles.timeSeconds(first + i), cycles.timeSeconds(first + i + 1)),
                            Math.rint(off) - off));
                }
            }
        }
        return slips.size() * LEAST_CYCLES_A_SLIP > cycles.cycles() ? List.of() : slips;
    }

    /** By how much a cycle is too long, in cycles, if its neighbours agree; else 0. */
    private static double off(CycleTimes cycles, int first, int cycle) {
        double[] beside = new double[2 * BESIDE];
        double before = 0;
        double after = 0;
        for (int k = 0; k < BESIDE; k++) {
            beside[k] = length(cycles, first + cycle - 1 - k);
            beside[BESIDE + k] = length(cycles, first + cycle + 1 + k);
            before += beside[k] / BESIDE;
            after += beside[BESIDE + k] / BESIDE;
        }
        Arrays.sort(beside);
        double usual = 0.5 * (beside[BESIDE - 1] + beside[BESIDE]);
        double off = length(cycles, first + cycle) / usual - 1;
        double spread = Math.max(beside[2 * BESIDE - 1] / usual - 1, 1 - beside[0] / usual);
        boolean isWhole = off > 0.5 && Math.abs(off - Math.rint(off)) < WHOLE;
        boolean agree = spread < NEIGHBOURS * Math.abs(off) && Math.abs(after - before) < SIDES * Math.abs(off) * usual;
        return agree && !isWhole ? off : 0;
    }

    private static double length(CycleTimes cycles, int crossing) {
        return cycles.timeSeconds(crossing + 1) - cycles.timeSeconds(crossing);
    }

    /** Whether the same cycle of the turns beside it is as odd: a weak magnet, or a missing one. */
    private boolean isOfTheTurn(CycleTimes cycles, int first, int count, int cycle, double off) {
        for (int turn : new int[] {-1, 1}) {
            int other = cycle + turn * polePairs;
            if (other >= BESIDE && other + BESIDE < count && off(cycles, first, other) * off > 0.25 * off * off) {
                return true;
            }
        }
        return false;
    }
}
