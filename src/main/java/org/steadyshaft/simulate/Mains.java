package org.steadyshaft.simulate;

/**
 * The supply: a sine.
 *
 * @param rms voltage [V]; may be 0
 * @param frequencyHz its frequency
 */
public record Mains(double rms, double frequencyHz) {
    public Mains {
        if (!(rms >= 0) || !(frequencyHz > 0)) {
            throw new IllegalArgumentException("mains of " + rms + " V, " + frequencyHz + " Hz");
        }
    }

    /** Voltage at a time; rising through zero at 0. */
    public double voltage(double timeSeconds) {
        return Math.sqrt(2) * rms * Math.sin(2 * Math.PI * frequencyHz * timeSeconds);
    }

    public double halfCycleSeconds() {
        return 0.5 / frequencyHz;
    }

    /** Number of the half-cycle a time lies in, from 0; a time within a nanosecond of its end counts to the next. */
    public long halfCycle(double timeSeconds) {
        return (long) Math.floor((timeSeconds + 1e-9) / halfCycleSeconds());
    }

    /** +1 in even half-cycles, -1 in odd ones. */
    public int polarity(double timeSeconds) {
        return halfCycle(timeSeconds) % 2 == 0 ? 1 : -1;
    }
}
