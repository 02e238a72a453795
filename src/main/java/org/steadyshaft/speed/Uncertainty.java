package org.steadyshaft.speed;

/**
 * Standard uncertainties of a mean speed, by their source.
 *
 * @param statisticalRpm from the scatter of the data, correlation allowed for; holds what the recorder's steps do
 * @param quantisationRpm what the recorder's steps alone would do; part of the one above, shown for itself
 * @param interpolationRpm from placing crossings between samples and beside the ends of the recording
 * @param clockRpm from the recorder's clock
 */
public record Uncertainty(double statisticalRpm, double quantisationRpm, double interpolationRpm, double clockRpm) {
    /** Coverage factor of the expanded uncertainty; 2 covers about 95 % of a normal spread (JCGM 100:2008, from memory). */
    public static final double COVERAGE_FACTOR = 2;

    public Uncertainty {
        if (!(statisticalRpm >= 0) || !(quantisationRpm >= 0) || !(interpolationRpm >= 0) || !(clockRpm >= 0)) {
            throw new IllegalArgumentException("uncertainties " + statisticalRpm + ", " + quantisationRpm + ", "
                    + interpolationRpm + ", " + clockRpm + " rpm");
        }
    }

    /** Standard uncertainty from the data: all but the clock, as root sum of squares. */
    public double dataRpm() {
        return Math.hypot(statisticalRpm, interpolationRpm);
    }

    /** Expanded uncertainty, k = 2: all parts combined as root sum of squares. */
    public double expandedRpm() {
        return COVERAGE_FACTOR * Math.hypot(dataRpm(), clockRpm);
    }
}
