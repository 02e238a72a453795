package org.steadyshaft.speed;

import java.util.OptionalDouble;

/**
 * The mean speed of a recording and how well it is known.
 *
 * @param meanRpm turns by time between the first and the last good crossing, gaps left out
 * @param cycles cycles it comes from
 * @param statisticalRpm standard uncertainty from the crossing jitter
 * @param clockRpm standard uncertainty from the recorder's clock
 * @param slowestRpm lowest speed of a cycle
 * @param fastestRpm highest speed of a cycle
 * @param spectralRpm mean by short-time spectra, over the frames that lie in unbroken rows of cycles; absent if none does
 * @param differencePercent spectra against crossings over the same frames
 * @param differenceErrorPercent standard error of that difference, from its spread over the frames
 */
public record MeanSpeed(
        double meanRpm,
        int cycles,
        double statisticalRpm,
        double clockRpm,
        double slowestRpm,
        double fastestRpm,
        OptionalDouble spectralRpm,
        OptionalDouble differencePercent,
        OptionalDouble differenceErrorPercent) {
    /** Coverage factor of the expanded uncertainty; 2 covers about 95 % of a normal spread (JCGM 100:2008, from memory). */
    public static final double COVERAGE_FACTOR = 2;

    public MeanSpeed {
        if (!(meanRpm > 0) || !(slowestRpm > 0) || !(fastestRpm >= slowestRpm)) {
            throw new IllegalArgumentException("speeds " + slowestRpm + ", " + meanRpm + ", " + fastestRpm + " rpm");
        }
        if (!(statisticalRpm >= 0) || !(clockRpm >= 0)) {
            throw new IllegalArgumentException("uncertainties " + statisticalRpm + ", " + clockRpm + " rpm");
        }
    }

    /** Expanded uncertainty, k = 2: both parts combined as root sum of squares. */
    public double expandedRpm() {
        return COVERAGE_FACTOR * Math.hypot(statisticalRpm, clockRpm);
    }
}
