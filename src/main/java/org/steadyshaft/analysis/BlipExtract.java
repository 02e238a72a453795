package org.steadyshaft.analysis;

import java.util.Objects;
import org.steadyshaft.blip.Blip;

/**
 * A blip with the raw waveform around it.
 *
 * @param blip the blip
 * @param waveform from somewhat before it to where it has mostly returned
 */
public record BlipExtract(Blip blip, WaveformExtract waveform) {
    /** Time shown before a blip, and at least and at most after its start. */
    static final double BEFORE_SECONDS = 0.15;

    static final double LEAST_AFTER_SECONDS = 0.3;
    static final double MOST_AFTER_SECONDS = 1.5;

    public BlipExtract {
        Objects.requireNonNull(blip, "blip");
        Objects.requireNonNull(waveform, "waveform");
    }
}
