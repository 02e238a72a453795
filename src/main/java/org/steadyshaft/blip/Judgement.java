package org.steadyshaft.blip;

import java.util.List;

/**
 * What explains a place of the waveform best.
 *
 * @param isSurelySudden whether the kinks are so fast, and leave so little, that no slower change comes near
 */
record Judgement(Cause cause, List<Kink> kinks, double atSeconds, double jump, boolean isSurelySudden) {
    /** What can bend the angle, or seem to. */
    enum Cause {
        SPEED,
        LEVEL,
        OFFSET,
        HUM,
        PHASE,
        /** The drive changes the speed. */
        DRIVE,
        NOTHING
    }

    static final Judgement NONE = of(Cause.NOTHING, 0, 0);

    Judgement {
        kinks = List.copyOf(kinks);
    }

    /** One that is no blip. */
    static Judgement of(Cause cause, double atSeconds, double jump) {
        return new Judgement(cause, List.of(), atSeconds, jump, false);
    }
}
