package org.steadyshaft.simulate;

/**
 * Something that happened to a run and that its recording may show.
 *
 * @param kind what it was
 * @param timeSeconds when it began
 */
public record Disturbance(Kind kind, double timeSeconds) {
    /** What can happen. */
    public enum Kind {
        EXTRA_CONDUCTION("extra conduction"),
        MISSED_FIRING("missed firing");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word used in truth files; the same as in results. */
        public String word() {
            return word;
        }
    }
}
