package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;

/** A speed over time, drawn from parts whose figures are known: a level, lines, blips, steps, a drift. Immutable. */
public final class DrawnSpeed {
    /** A part: its relative change of the speed at a time. */
    @FunctionalInterface
    private interface Part {
        double share(double timeSeconds);
    }

    private final double levelRpm;
    private final List<Part> parts;

    private DrawnSpeed(double levelRpm, List<Part> parts) {
        this.levelRpm = levelRpm;
        this.parts = parts;
    }

    /** A constant speed [rpm], above 0. */
    public static DrawnSpeed level(double levelRpm) {
        if (!(levelRpm > 0)) {
            throw new IllegalArgumentException("level " + levelRpm + " rpm; expected above 0");
        }
        return new DrawnSpeed(levelRpm, List.of());
    }

    private DrawnSpeed with(Part part) {
        List<Part> all = new ArrayList<>(parts);
        all.add(part);
        return new DrawnSpeed(levelRpm, all);
    }

    /** Adds a sine of the given frequency and amplitude [% of the level, 0 to peak]. */
    public DrawnSpeed line(double frequencyHz, double amplitudePercent, double phaseRadians) {
        return with(t -> amplitudePercent / 100 * Math.sin(2 * Math.PI * frequencyHz * t + phaseRadians));
    }

    /** Adds a blip: a straight rise to its peak [% of the level, signed], then an exponential return. */
    public DrawnSpeed blip(double fromSeconds, double riseSeconds, double peakPercent, double returnSeconds) {
        return with(t -> {
            double since = t - fromSeconds;
            if (since <= 0) {
                return 0;
            }
            double shape = since < riseSeconds ? since / riseSeconds : Math.exp((riseSeconds - since) / returnSeconds);
            return peakPercent / 100 * shape;
        });
    }

    /** Adds a steady rise [% of the level a minute]. */
    public DrawnSpeed drift(double percentPerMinute) {
        return with(t -> percentPerMinute / 100 * t / 60);
    }

    /** Adds a first-order step [% of the level] with a time constant. */
    public DrawnSpeed step(double atSeconds, double percent, double constantSeconds) {
        return with(t -> t <= atSeconds ? 0 : percent / 100 * (1 - Math.exp((atSeconds - t) / constantSeconds)));
    }

    /** Speed at a time after the start [rpm]; never below 0. */
    public double rpm(double timeSeconds) {
        double share = 1;
        for (Part part : parts) {
            share += part.share(timeSeconds);
        }
        return Math.max(0, levelRpm * share);
    }
}
