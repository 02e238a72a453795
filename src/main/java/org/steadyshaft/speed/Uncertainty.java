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

    /**
     * An evenly spread tolerance a holds 95.45 % of its values within 0.9545 a; half of that is the standard uncertainty which,
     * doubled, covers as much as doubling does for a normal spread. (JCGM 100:2008, from memory, gives a / sqrt(3) as the standard
     * deviation and 1.65 of it for 95 %: doubling a / sqrt(3) would cover everything and claim too little.)
     */
    private static final double CLOCK_SHARE = 0.5 * 0.9545;

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

    /** Standard uncertainty of every speed, as a share of it, from a clock that may be off by a tolerance. */
    public static double clockShare(double tolerancePpm) {
        return CLOCK_SHARE * tolerancePpm * 1e-6;
    }
}
