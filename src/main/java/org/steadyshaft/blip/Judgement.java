package org.steadyshaft.blip;

import java.util.List;

/** What explains a place of the waveform best. */
record Judgement(Cause cause, List<Kink> kinks, double atSeconds, double jump) {
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

    static final Judgement NONE = new Judgement(Cause.NOTHING, List.of(), 0, 0);

    Judgement {
        kinks = List.copyOf(kinks);
    }
}
