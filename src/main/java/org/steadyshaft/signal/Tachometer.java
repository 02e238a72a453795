package org.steadyshaft.signal;

/**
 * The small AC generator on the shaft: the one place where frequency becomes speed and back, n = 60 f / p.
 *
 * @param polePairs cycles of its voltage a turn; at least 1. Source: standard relation of electrical machines (any
 *     textbook).
 */
public record Tachometer(int polePairs) {
    private static final double SECONDS_A_MINUTE = 60.0;

    public Tachometer {
        if (polePairs < 1 || polePairs > 1000) {
            throw new IllegalArgumentException("pole pairs " + polePairs + "; expected 1 to 1000");
        }
    }

    /** Speed [rpm] at a tacho frequency [Hz]. */
    public double rpm(double cycleHz) {
        return SECONDS_A_MINUTE * cycleHz / polePairs;
    }

    /** Tacho frequency [Hz] at a speed [rpm]. */
    public double cycleHz(double speedRpm) {
        return polePairs * speedRpm / SECONDS_A_MINUTE;
    }

    /** Turns a second [Hz] at a tacho frequency [Hz]. */
    public double shaftHz(double cycleHz) {
        return cycleHz / polePairs;
    }
}
