package org.steadyshaft.signal;

import java.util.Objects;
import java.util.Optional;

/**
 * Something the user should know of a recording.
 *
 * @param code its kind
 * @param severity how far it limits the results
 * @param text plain words: what was found, what it means, what to do
 * @param where the stretch of time it concerns; absent where it concerns all of it
 */
public record Finding(FindingCode code, Severity severity, String text, Optional<Stretch> where) {
    /** How far a finding limits the results: not at all, some of them, all of them. */
    public enum Severity {
        NOTE,
        CAUTION,
        STOP
    }

    public Finding {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(severity, "severity");
        Objects.requireNonNull(text, "text");
        Objects.requireNonNull(where, "where");
    }

    public static Finding note(FindingCode code, String text) {
        return new Finding(code, Severity.NOTE, text, Optional.empty());
    }

    public static Finding caution(FindingCode code, String text) {
        return new Finding(code, Severity.CAUTION, text, Optional.empty());
    }

    public static Finding caution(FindingCode code, String text, Stretch where) {
        return new Finding(code, Severity.CAUTION, text, Optional.of(where));
    }

    public static Finding stop(FindingCode code, String text) {
        return new Finding(code, Severity.STOP, text, Optional.empty());
    }
}
