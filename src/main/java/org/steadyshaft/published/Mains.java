package org.steadyshaft.published;

/** Figures of the public mains supply. */
public final class Mains {
    /**
     * Share by which the frequency of an interconnected supply may stand off its nominal value for 99.5 % of a year: 1 %.
     * Source: EN 50160:2010, power frequency clause, as restated by two instrument makers.
     */
    public static final double FREQUENCY_TOLERANCE = 0.01;

    /** How far the mains stands off within a recording: 49.8 to 50.2 Hz occur (common practice). */
    public static final double REACH = 0.004;

    private Mains() {}
}
