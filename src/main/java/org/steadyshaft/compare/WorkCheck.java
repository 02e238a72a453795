package org.steadyshaft.compare;

import java.util.Objects;
import java.util.Optional;

/**
 * A circuit against what a kind of work needs, in one measure, band and load.
 *
 * @param work the work
 * @param circuit the circuit
 * @param band the band of speeds
 * @param load the load
 * @param measure the measure
 * @param value what was found
 * @param low95 its lower limit
 * @param high95 its upper limit
 * @param most what the work allows
 * @param status whether it is proven to hold or to fail
 * @param moreMinutes how many more minutes without a further fault would prove it, where that can be said
 */
public record WorkCheck(
        Work work,
        String circuit,
        SpeedBand band,
        String load,
        Measure measure,
        double value,
        double low95,
        double high95,
        double most,
        Status status,
        Optional<Double> moreMinutes) {
    /** Whether a limit is proven to hold. */
    public enum Status {
        PASS("pass"),
        FAIL("fail"),
        NOT_PROVEN("not proven");

        private final String word;

        Status(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    public WorkCheck {
        Objects.requireNonNull(status, "status");
    }

    /** How much room is left below the limit, in % of it; negative where it is exceeded. */
    public double marginPercent() {
        return most > 0 ? 100 * (most - value) / most : value > 0 ? -100 : 0;
    }
}
