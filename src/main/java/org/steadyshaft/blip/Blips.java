package org.steadyshaft.blip;

import java.util.List;
import org.steadyshaft.numeric.PoissonLimits;

/**
 * The blips of the steady stretches.
 *
 * @param events the blips, in order
 * @param minutes how long was looked at; above 0
 * @param smallestPercent departures smaller than this were not told from the noise
 */
public record Blips(List<Blip> events, double minutes, double smallestPercent) {
    private static final double CONFIDENCE = 0.95;

    public Blips {
        events = List.copyOf(events);
        if (!(minutes > 0) || !(smallestPercent >= 0)) {
            throw new IllegalArgumentException("blips above " + smallestPercent + " % in " + minutes + " minutes");
        }
    }

    public double perMinute() {
        return events.size() / minutes;
    }

    /** Exact two-sided 95 % limits of the rate (Garwood 1936), blips taken as independent. */
    public double perMinuteLow() {
        return PoissonLimits.of(events.size(), CONFIDENCE).low() / minutes;
    }

    public double perMinuteHigh() {
        return PoissonLimits.of(events.size(), CONFIDENCE).high() / minutes;
    }
}
