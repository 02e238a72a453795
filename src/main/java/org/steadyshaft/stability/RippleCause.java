package org.steadyshaft.stability;

/** What a periodic part of the speed comes from, judged by its frequency. */
public enum RippleCause {
    TWICE_MAINS("twice mains", "torque pulses of phase control, one each half-cycle of the mains"),
    MAINS("mains", "the two half-cycles of the mains fire unequally"),
    MAINS_MULTIPLE("mains multiple", "a higher multiple of the mains frequency from the firing"),
    SHAFT("shaft", "something that turns with the shaft; the tacho's own poles look just the same"),
    HUNTING("hunting", "the speed swings slowly: a control loop or the load hunts"),
    FOLDED_TWICE_MAINS("folded twice mains", "twice mains, too fast for this tacho frequency and shown folded back"),
    FOLDED_MAINS("folded mains", "the mains frequency, too fast for this tacho frequency and shown folded back"),
    PICK_UP(
            "mains pick-up",
            "hum in the recording shifts the crossings by just this much: the shaft itself need not swing"),
    UNKNOWN("unknown", "no known source at this frequency");

    private final String word;
    private final String explanation;

    RippleCause(String word, String explanation) {
        this.word = word;
        this.explanation = explanation;
    }

    /** The word used in result files. */
    public String word() {
        return word;
    }

    /** What it means, in plain words. */
    public String explanation() {
        return explanation;
    }
}
