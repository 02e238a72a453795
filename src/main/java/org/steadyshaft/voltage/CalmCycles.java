package org.steadyshaft.voltage;

import org.steadyshaft.signal.CycleTimes;

/** The crossings as they would come without lines of the speed that are known. */
public final class CalmCycles {
    private CalmCycles() {}

    /** @param motion the lines */
    public static CycleTimes of(CycleTimes cycles, LineMotion motion) {
        CycleTimes.Builder calm = new CycleTimes.Builder();
        for (int segment = 0; segment < cycles.segments(); segment++) {
            calm.breakHere();
            double before = Double.NEGATIVE_INFINITY;
            for (int i = cycles.firstOf(segment); i < cycles.endOf(segment); i++) {
                double at = cycles.timeSeconds(i) + motion.aheadSeconds(cycles.timeSeconds(i));
                if (at > before) {
                    calm.add(at);
                    before = at;
                }
            }
        }
        return calm.build();
    }
}
