package org.steadyshaft.speed;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * The mean speed of a recording and how well it is known.
 *
 * @param meanRpm the best value: by the sine fit where the speed was constant, else by crossings
 * @param crossingRpm turns by time between the first and the last good crossing, gaps left out
 * @param cycles cycles it comes from
 * @param uncertainty how well {@code meanRpm} is known
 * @param slowestRpm lowest speed of a cycle
 * @param fastestRpm highest speed of a cycle
 * @param sineRpm by a sine fit over the whole recording; absent where the speed was not constant
 * @param spectralRpm mean by short-time spectra, over the frames that lie in unbroken rows of cycles; absent if none does
 * @param differencePercent spectra against crossings over the same frames
 * @param differenceErrorPercent standard error of that difference, from its spread over the frames
 */
public record MeanSpeed(
        double meanRpm,
        double crossingRpm,
        int cycles,
        Uncertainty uncertainty,
        double slowestRpm,
        double fastestRpm,
        OptionalDouble sineRpm,
        OptionalDouble spectralRpm,
        OptionalDouble differencePercent,
        OptionalDouble differenceErrorPercent) {
    public MeanSpeed {
        Objects.requireNonNull(uncertainty, "uncertainty");
        if (!(meanRpm > 0) || !(crossingRpm > 0) || !(slowestRpm > 0) || !(fastestRpm >= slowestRpm)) {
            throw new IllegalArgumentException(
                    "speeds " + slowestRpm + ", " + meanRpm + ", " + crossingRpm + ", " + fastestRpm + " rpm");
        }
    }

    /** Expanded uncertainty of the mean, k = 2. */
    public double expandedRpm() {
        return uncertainty.expandedRpm();
    }
}
