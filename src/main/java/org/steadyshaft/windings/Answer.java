package org.steadyshaft.windings;

import java.util.List;
import java.util.Objects;

/**
 * What a reading tells.
 *
 * @param reading the reading
 * @param kind how sure it is
 * @param candidates what it may be: one where it is known or likely
 * @param why in words
 * @param test what is still to be tested, in words; empty where nothing is
 */
public record Answer(Reading reading, Kind kind, List<Winding> candidates, String why, String test) {
    /** How sure an answer is. */
    public enum Kind {
        /** Resistance and a second test agree. */
        KNOWN("is"),
        /** The resistance fits one winding alone, and the second test is still to be made. */
        LIKELY("likely"),
        /** Several fit: no answer until the second test is made. */
        OPEN("not told"),
        /** No winding of its own: parts in series, a part of another, or nothing. */
        NONE("no winding of its own"),
        /** Something is wrong with it. */
        STOP("stop");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    public Answer {
        Objects.requireNonNull(kind, "kind");
        candidates = List.copyOf(candidates);
        if ((kind == Kind.KNOWN || kind == Kind.LIKELY) && candidates.size() != 1) {
            throw new IllegalArgumentException(kind + " of " + candidates);
        }
    }
}
