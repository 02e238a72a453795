package org.steadyshaft.signal;

/** What can be wrong with, or worth knowing of, a recording; the words of result.json. */
public enum FindingCode {
    CLIPPED,
    GAP,
    SAMPLES_LOST,
    SAMPLES_DOUBLED,
    LEVEL_STEP,
    OFFSET_STEP,
    HUM_STEP,
    NOISE_BURST,
    LEAD_OPEN,
    HUM,
    SPIKES,
    LOW_LEVEL,
    LOW_SNR,
    OFFSET,
    UNDERSAMPLED,
    TOO_SHORT,
    NO_ROTATION,
    RATE_SUSPECT,
    ALIASED_RIPPLE,
    HARMONIC,
    COUPLING,
    MISSING_TEETH,
    METHODS_DISAGREE,
    POLE_COUNT,
    UNREADABLE
}
