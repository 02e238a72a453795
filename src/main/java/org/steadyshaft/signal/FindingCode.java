package org.steadyshaft.signal;

/** What can be wrong with, or worth knowing of, a recording; the words of result.json. */
public enum FindingCode {
    CLIPPED,
    GAP,
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
    UNREADABLE
}
