package org.steadyshaft.compare;

import java.util.Objects;
import java.util.Optional;
import org.steadyshaft.numeric.MeanEstimate;

/**
 * A measure of a circuit at about one speed with one load.
 *
 * @param measure what it is
 * @param value its value, in the measure's unit
 * @param low95 lower 95 % limit, 0 or more
 * @param high95 upper 95 % limit; may be infinite where too little was recorded
 * @param scaled value, error and degrees of freedom on the scale on which differences are tested: logarithms where the measure is
 *     compared by ratio ({@link Measure#isByRatio}), the plain value else
 * @param minutes how long was recorded for it
 * @param count blips or steps counted; absent for other measures
 * @param fromPercent smallest blip that was counted; 0 where all that were found are, and for other measures
 * @param betweenRunsPercent how much single runs differ, standard deviation in % of the value; absent with one run
 */
public record Estimate(
        Measure measure,
        double value,
        double low95,
        double high95,
        MeanEstimate scaled,
        double minutes,
        Optional<Integer> count,
        double fromPercent,
        Optional<Double> betweenRunsPercent) {
    public Estimate {
        Objects.requireNonNull(measure, "measure");
        Objects.requireNonNull(scaled, "scaled");
        if (!Double.isFinite(value) || !(low95 <= value) || !(high95 >= value) || !(minutes >= 0)) {
            throw new IllegalArgumentException(measure + " of " + value + " between " + low95 + " and " + high95
                    + " from " + minutes + " minutes");
        }
    }

    /** Whether there is an interval at all. */
    public boolean hasInterval() {
        return Double.isFinite(high95);
    }
}
