package org.steadyshaft.blip;

import java.util.Objects;
import org.steadyshaft.signal.Stretch;

/**
 * Something that the recording did and not the shaft.
 *
 * @param kind what it was
 * @param where when it was so
 * @param amount of a jump of the phase: cycles that are missing (positive) or twice there, whole cycles not counted; of a step: the new
 *     value less the old one as a share of the tacho's level; of pick-up: half the range of the level it swings, as a share; else 0
 */
public record RecorderFault(Kind kind, Stretch where, double amount) {
    /** Kinds of faults. */
    public enum Kind {
        SAMPLES_LOST,
        SAMPLES_DOUBLED,
        REVERSED,
        LEVEL_STEP,
        OFFSET_STEP,
        HUM_STEP,
        NOISE_BURST,
        CONTACT,
        LEAD_OPEN,
        /** Pick-up so close beside the tacho that nothing is told. */
        PICK_UP
    }

    public RecorderFault {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(where, "where");
        if (!Double.isFinite(amount)) {
            throw new IllegalArgumentException("amount " + amount);
        }
    }
}
