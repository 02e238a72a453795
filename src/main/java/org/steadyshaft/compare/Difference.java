package org.steadyshaft.compare;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * Two circuits against each other in one measure, at about one speed with one load.
 *
 * @param measure what was compared; less is better
 * @param load with which load
 * @param first a circuit
 * @param second another
 * @param fromPercent smallest blip that was counted on both sides; 0 for other measures
 * @param outcome what the test tells; absent where the two were not measured alike
 * @param limit the tightest limit of a work that both ran for; absent without one
 * @param verdict who is better, if that is proven
 * @param moreMinutes how many more minutes of each would decide it, if it is as large as it looks and that is worth recording
 * @param reason why they are not comparable, or why the difference does not matter; empty else
 */
public record Difference(
        Measure measure,
        String load,
        Side first,
        Side second,
        double fromPercent,
        Optional<Test> outcome,
        Optional<Double> limit,
        Verdict verdict,
        Optional<Double> moreMinutes,
        String reason) {
    /**
     * One side.
     *
     * @param circuit the circuit
     * @param meanRpm its speed
     * @param value what was measured; absent where it could not be
     * @param doubtful recordings of it that are doubtful
     */
    public record Side(String circuit, double meanRpm, Optional<Double> value, List<Run> doubtful) {
        public Side {
            doubtful = List.copyOf(doubtful);
            if (!(meanRpm > 0)) {
                throw new IllegalArgumentException(circuit + " at " + meanRpm + " rpm");
            }
        }
    }

    /**
     * What a test tells.
     *
     * @param low95 lower 95 % limit of first less second, in the measure's unit; minus infinity where there is none
     * @param high95 upper limit; infinity where there is none
     * @param p chance of such a difference between equals
     * @param adjustedP the same after Holm's correction for all comparisons of the batch
     */
    public record Test(double low95, double high95, double p, double adjustedP) {
        public Test {
            if (!(low95 <= high95) || !(p >= 0) || !(p <= 1) || !(adjustedP >= p) || !(adjustedP <= 1)) {
                throw new IllegalArgumentException(low95 + " to " + high95 + ", p " + p + ", adjusted " + adjustedP);
            }
        }
    }

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
        boolean unlike = verdict == Verdict.NOT_COMPARABLE;
        if (outcome.isPresent() == unlike || (unlike && reason.isEmpty())) {
            throw new IllegalArgumentException(verdict + " with " + outcome + " because of '" + reason + "'");
        }
    }

    /** The better side; empty where undecided. */
    public Optional<Side> better() {
        return switch (verdict) {
            case FIRST_BETTER -> Optional.of(first);
            case SECOND_BETTER -> Optional.of(second);
            case UNDECIDED, NO_MATTER, NOT_COMPARABLE -> Optional.empty();
        };
    }

    /** The side that is not the better one; empty where undecided. */
    public Optional<Side> worse() {
        return better().map(b -> b == first ? second : first);
    }

    /** How large the difference is beside the limit of the work; 0 without a limit or a value. */
    public double shareOfLimit() {
        return limit.filter(most -> most > 0)
                .flatMap(most -> first.value().flatMap(a -> second.value().map(b -> Math.abs(a - b) / most)))
                .orElse(0.0);
    }
}
