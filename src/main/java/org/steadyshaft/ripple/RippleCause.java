package org.steadyshaft.ripple;

/** What a periodic part of the speed comes from, judged by where it stands. */
public enum RippleCause {
    TWICE_MAINS("twice mains", "torque pulses of phase control, one each half-cycle of the mains"),
    MAINS("mains", "the two half-cycles of the mains fire unequally"),
    MAINS_MULTIPLE("mains multiple", "a higher multiple of the mains frequency from the firing"),
    DRIVEN_WHEEL("driven wheel", "something that turns with the driven wheel: a lump of clay, a wheel out of balance"),
    BELT(
            "belt",
            "something that turns more slowly than the motor and is no turn of the driven wheel: the belt's seam, a hard or worn place in it"),
    COMMUTATOR(
            "commutator",
            "it keeps time with the shaft, as often a turn as a commutator has bars: a bar or a brush that makes poor contact"),
    HUNTING("hunting", "the speed swings slowly: the control loop hunts"),
    SWING("swing", "a slow swing of load or belt; without a control loop it is no hunting"),
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
