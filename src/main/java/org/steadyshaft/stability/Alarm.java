package org.steadyshaft.stability;

import java.util.Objects;
import org.steadyshaft.signal.Stretch;

/**
 * Something dangerous, or at least not meant.
 *
 * @param code what it is
 * @param where when it was so
 * @param text what was seen, in plain words
 */
public record Alarm(Code code, Stretch where, String text) {
    /** The words of result.json. */
    public enum Code {
        OVERSPEED,
        RUNAWAY,
        STANDSTILL,
        LEAD_OPEN;

        /** Whether the motor ran faster than it may: it ran away, or beyond what the user allows. */
        public boolean isTooFast() {
            return this == RUNAWAY || this == OVERSPEED;
        }
    }

    public Alarm {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(where, "where");
        if (text.isBlank()) {
            throw new IllegalArgumentException("an alarm without words");
        }
    }
}
