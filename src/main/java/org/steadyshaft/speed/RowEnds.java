package org.steadyshaft.speed;

import org.steadyshaft.signal.CycleTimes;

/**
 * Cuts off what does not belong to the ends of rows of cycles: where a tacho's voltage goes at once, the band-limit rings on for a cycle or two
 * and the last crossing is nobody's. A shaft that stops or starts changes less from one cycle to the next.
 */
final class RowEnds {
    /** A cycle at an end differs by this share from the next one further in: a shaft that coasts out loses less in its last turns but one. */
    private static final double ODD = 0.2;

    /** The band-limit rings no longer than so many cycles. */
    private static final int MOST_CUT = 3;

    /** Shorter rows are left as they are. */
    private static final int FEWEST_CYCLES = 12;

    private RowEnds() {}

    /** The same rows without odd ends. */
    static CycleTimes trimmed(CycleTimes cycles) {
        CycleTimes.Builder kept = new CycleTimes.Builder();
        for (int segment = 0; segment < cycles.segments(); segment++) {
            int first = cycles.firstOf(segment);
            int end = cycles.endOf(segment);
            if (end - first > FEWEST_CYCLES) {
                first += odd(cycles, first, 1);
                end -= odd(cycles, end - 1, -1);
            }
            kept.breakHere();
            for (int i = first; i < end; i++) {
                kept.add(cycles.timeSeconds(i));
            }
        }
        return kept.build();
    }

    /** How many crossings from an end on, going inwards, bound odd cycles. */
    private static int odd(CycleTimes cycles, int from, int step) {
        int cut = 0;
        for (int k = 0; k < MOST_CUT; k++) {
            int at = from + k * step;
            double own = Math.abs(cycles.timeSeconds(at + step) - cycles.timeSeconds(at));
            double next = Math.abs(cycles.timeSeconds(at + 2 * step) - cycles.timeSeconds(at + step));
            if (Math.abs(own / next - 1) > ODD) {
                cut = k + 1;
            }
        }
        return cut;
    }
}
