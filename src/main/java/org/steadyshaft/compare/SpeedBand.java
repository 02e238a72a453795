package org.steadyshaft.compare;

import java.util.Locale;

/**
 * A range of speeds within which captures are compared: eight to a decade, a third apart from one edge to the next, so that the
 * same setting with and without load mostly falls into the same or the next one.
 *
 * @param fromRpm lowest speed
 * @param toRpm upper end, itself outside
 */
public record SpeedBand(double fromRpm, double toRpm) implements Comparable<SpeedBand> {
    private static final int BANDS_A_DECADE = 8;

    public SpeedBand {
        if (!(fromRpm > 0) || !(toRpm > fromRpm)) {
            throw new IllegalArgumentException("band from " + fromRpm + " to " + toRpm + " rpm");
        }
    }

    /** The band that holds a speed above 0. */
    public static SpeedBand of(double rpm) {
        if (!(rpm > 0) || !Double.isFinite(rpm)) {
            throw new IllegalArgumentException("speed " + rpm + " rpm; expected above 0");
        }
        int step = (int) Math.floor(BANDS_A_DECADE * Math.log10(rpm));
        SpeedBand band = new SpeedBand(edge(step), edge(step + 1));
        if (rpm >= band.toRpm) {
            return new SpeedBand(edge(step + 1), edge(step + 2));
        }
        return rpm < band.fromRpm ? new SpeedBand(edge(step - 1), edge(step)) : band;
    }

    private static double edge(int step) {
        return Math.pow(10, (double) step / BANDS_A_DECADE);
    }

    public boolean contains(double rpm) {
        return rpm >= fromRpm && rpm < toRpm;
    }

    @Override
    public int compareTo(SpeedBand other) {
        return Double.compare(fromRpm, other.fromRpm);
    }

    /** For a heading: "562 to 750 rpm". */
    public String words() {
        return String.format(Locale.ROOT, "%.0f to %.0f rpm", fromRpm, toRpm);
    }
}
