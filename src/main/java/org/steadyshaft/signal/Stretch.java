package org.steadyshaft.signal;

/**
 * A stretch of time inside a recording.
 *
 * @param fromSeconds start, after the first sample
 * @param toSeconds end; not before the start
 */
public record Stretch(double fromSeconds, double toSeconds) {
    public Stretch {
        if (!(toSeconds >= fromSeconds)) {
            throw new IllegalArgumentException("stretch from " + fromSeconds + " s to " + toSeconds + " s");
        }
    }

    public double durationSeconds() {
        return toSeconds - fromSeconds;
    }

    public boolean contains(double timeSeconds) {
        return timeSeconds >= fromSeconds && timeSeconds <= toSeconds;
    }
}
