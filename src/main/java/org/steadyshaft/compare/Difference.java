package org.steadyshaft.compare;

import java.util.Objects;
import java.util.Optional;

/**
 * Two circuits against each other in one measure, one band of speeds and one load.
 *
 * @param measure what was compared; less is better
 * @param band where
 * @param load with which load
 * @param first a circuit
 * @param second another
 * @param firstValue its value
 * @param secondValue that of the other
 * @param adjustedP chance of such a difference between equals, after Holm's correction for all comparisons of the batch
 * @param verdict who is better, if that is proven
 * @param moreMinutes how many more minutes of each would decide it, if it is as large as it looks and that is worth recording
 * @param reason why they are not comparable; empty else
 */
public record Difference(
        Measure measure,
        SpeedBand band,
        String load,
        String first,
        String second,
        double firstValue,
        double secondValue,
        double adjustedP,
        Verdict verdict,
        Optional<Double> moreMinutes,
        String reason) {
    /** Who is better. */
    public enum Verdict {
        FIRST_BETTER("first better"),
        SECOND_BETTER("second better"),
        UNDECIDED("undecided"),
        /** Whatever it is, it is less than a fifth of what the work allows. */
        NO_MATTER("no difference that matters"),
        /** The two were not measured alike. */
        NOT_COMPARABLE("not comparable");

        private final String word;

        Verdict(String word) {
            this.word = word;
        }

        /** The word of comparison.json. */
        public String word() {
            return word;
        }
    }

    public Difference {
        Objects.requireNonNull(verdict, "verdict");
        if (reason.isEmpty() == (verdict == Verdict.NOT_COMPARABLE)) {
            throw new IllegalArgumentException(verdict + " because of '" + reason + "'");
        }
        if (!(adjustedP >= 0) || !(adjustedP <= 1)) {
            throw new IllegalArgumentException("p " + adjustedP);
        }
    }

    /** The better circuit; empty where undecided. */
    public Optional<String> better() {
        return switch (verdict) {
            case FIRST_BETTER -> Optional.of(first);
            case SECOND_BETTER -> Optional.of(second);
            case UNDECIDED, NO_MATTER, NOT_COMPARABLE -> Optional.empty();
        };
    }
}
