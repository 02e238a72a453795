package org.steadyshaft.blip;

import java.util.Objects;

/**
 * A short departure of the speed from its local level.
 *
 * @param fromSeconds where it leaves the noise
 * @param peakSeconds where it is largest
 * @param toSeconds where it is back in the noise
 * @param peakPercent its size there [% of the local mean], up positive
 * @param shape how it goes
 * @param cause what it likely comes from
 */
public record Blip(
        double fromSeconds,
        double peakSeconds,
        double toSeconds,
        double peakPercent,
        BlipShape shape,
        BlipCause cause) {
    public Blip {
        if (!(fromSeconds <= peakSeconds) || !(peakSeconds <= toSeconds)) {
            throw new IllegalArgumentException(
                    "blip from " + fromSeconds + " over " + peakSeconds + " to " + toSeconds);
        }
        if (!Double.isFinite(peakPercent) || peakPercent == 0) {
            throw new IllegalArgumentException("blip of " + peakPercent + " %");
        }
        Objects.requireNonNull(shape, "shape");
        Objects.requireNonNull(cause, "cause");
    }
}
