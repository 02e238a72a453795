package org.steadyshaft.signal;

import java.util.List;

/**
 * Mains pick-up in a channel as slowly changing sines: at each of evenly spaced times every line has an amplitude and a
 * phase, between these times they change in proportion.
 */
public final class MainsHum {
    /**
     * A line: its value at time t is cosine cos(2 pi f t) + sine sin(2 pi f t).
     *
     * @param frequencyHz above 0
     * @param cosine one value for each time; 0 where the line is not known
     * @param sine as many values
     */
    public record Line(double frequencyHz, DoubleSeries cosine, DoubleSeries sine) {
        public Line {
            if (!(frequencyHz > 0) || cosine.isEmpty() || cosine.size() != sine.size()) {
                throw new IllegalArgumentException(
                        "line at " + frequencyHz + " Hz of " + cosine.size() + " and " + sine.size() + " values");
            }
        }
    }

    /** No pick-up. */
    public static final MainsHum NONE = new MainsHum(0, 1, List.of());

    private final double firstSeconds;
    private final double hopSeconds;
    private final List<Line> lines;

    /**
     * @param firstSeconds time of the first values
     * @param hopSeconds from one value to the next; above 0
     */
    public MainsHum(double firstSeconds, double hopSeconds, List<Line> lines) {
        if (!(hopSeconds > 0)) {
            throw new IllegalArgumentException("hop of " + hopSeconds + " s");
        }
        this.firstSeconds = firstSeconds;
        this.hopSeconds = hopSeconds;
        this.lines = List.copyOf(lines);
    }

    public List<Line> lines() {
        return lines;
    }

    /** A line's cosine part at a time; before the first and after the last value these hold. */
    public double cosine(Line line, double timeSeconds) {
        return at(line.cosine(), timeSeconds);
    }

    /** A line's sine part at a time. */
    public double sine(Line line, double timeSeconds) {
        return at(line.sine(), timeSeconds);
    }

    private double at(DoubleSeries values, double timeSeconds) {
        double place = Math.max(0, Math.min(values.size() - 1.0, (timeSeconds - firstSeconds) / hopSeconds));
        int before = (int) Math.min(place, Math.max(0, values.size() - 2));
        int after = Math.min(values.size() - 1, before + 1);
        return values.get(before) + (place - before) * (values.get(after) - values.get(before));
    }
}
