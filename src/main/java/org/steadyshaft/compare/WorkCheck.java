package org.steadyshaft.compare;

import java.util.Objects;
import java.util.Optional;

/**
 * A circuit against what a kind of work needs, in one measure.
 *
 * @param work the work
 * @param circuit the circuit
 * @param group its runs at about one speed with one load; absent where the circuit has none that tell
 * @param measure the measure
 * @param figure what was found; absent where nothing was
 * @param most what the work allows
 * @param status whether it is proven to hold or to fail
 * @param moreMinutes how many more minutes without a further fault would prove it, where that can be said
 * @param reason why it cannot be told, or what was not recorded; empty else
 */
public record WorkCheck(
        Work work,
        String circuit,
        Optional<Group> group,
        Measure measure,
        Optional<Figure> figure,
        double most,
        Status status,
        Optional<Double> moreMinutes,
        String reason) {
    /** A value with its 95 % limits; the upper one infinite where there is none. */
    public record Figure(double value, double low95, double high95) {
        public Figure {
            if (!Double.isFinite(value) || !(low95 <= value) || !(high95 >= value)) {
                throw new IllegalArgumentException(value + " between " + low95 + " and " + high95);
            }
        }
    }

    /** Whether a limit is proven to hold. */
    public enum Status {
        PASS("pass"),
        FAIL("fail"),
        NOT_PROVEN("not proven"),
        /** It was recorded, but does not show in the recording. */
        CANNOT_TELL("cannot tell"),
        NOT_RECORDED("not recorded");

        private final String word;

        Status(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    public WorkCheck {
        Objects.requireNonNull(work, "work");
        boolean judged = status == Status.PASS || status == Status.FAIL || status == Status.NOT_PROVEN;
        if (judged != figure.isPresent() || !judged && reason.isEmpty()) {
            throw new IllegalArgumentException(
                    measure + " of " + circuit + ": " + status + " of " + figure + ", " + reason);
        }
    }

    /** Whether it is about this very group; to compare all that two groups hold would take long. */
    public boolean isOf(Group other) {
        return group.isPresent() && group.get() == other;
    }

    /** Value over limit: 1 where it just holds; infinite where nothing is allowed and something was found; 0 without a value. */
    public double shareOfLimit() {
        double value = figure.map(Figure::value).orElse(0.0);
        return most > 0 ? value / most : value > 0 ? Double.POSITIVE_INFINITY : 0;
    }

    /** How much room is left below the limit, in % of it; negative where it is exceeded. */
    public double marginPercent() {
        double value = figure.map(Figure::value).orElse(0.0);
        return most > 0 ? 100 * (most - value) / most : value > 0 ? -100 : 0;
    }
}
