package org.steadyshaft.simulate;

import java.util.List;

/**
 * The supply: a sine whose frequency wanders slowly and whose voltage flickers and steps, as on a line with other users.
 *
 * @param rms voltage [V]; may be 0
 * @param frequencyHz its mean frequency
 * @param unrest how frequency and voltage swing
 * @param steps of the voltage, in the order of time
 */
public record Mains(double rms, double frequencyHz, Unrest unrest, List<Step> steps) {
    /**
     * Swings of frequency and voltage. A grid stays within 1 % of its frequency and within a tenth of that nearly always (common
     * practice); flicker is a change of the voltage by some tenths of a percent a few times a second.
     *
     * @param wanderPercent by how much the frequency swings either way
     * @param wanderSeconds period of that swing
     * @param flickerPercent by how much the voltage swings either way
     * @param flickerHz frequency of that swing
     */
    public record Unrest(double wanderPercent, double wanderSeconds, double flickerPercent, double flickerHz) {
        public static final Unrest NONE = new Unrest(0, 60, 0, 1);

        public Unrest {
            if (!(wanderPercent >= 0) || wanderPercent > 5 || !(wanderSeconds > 1)) {
                throw new IllegalArgumentException("the mains' frequency wanders by " + wanderPercent + " % in "
                        + wanderSeconds + " s; expected 0 to 5 % in more than 1 s");
            }
            if (!(flickerPercent >= 0) || flickerPercent > 50 || !(flickerHz > 0)) {
                throw new IllegalArgumentException("the mains' voltage flickers by " + flickerPercent + " % at "
                        + flickerHz + " Hz; expected 0 to 50 % above 0 Hz");
            }
        }
    }

    /** From a time on the voltage is other by so many percent of the nominal one. */
    public record Step(double timeSeconds, double percent) {}

    /** Steps from the nominal time of a zero; each leaves a twentieth of the error at most. */
    private static final int STEPS_TO_ZERO = 10;

    private static final double STILL_SECONDS = 1e-13;

    private static final double SAME_SECONDS = 1e-9;

    public Mains {
        if (!(rms >= 0) || !(frequencyHz > 0)) {
            throw new IllegalArgumentException("mains of " + rms + " V, " + frequencyHz + " Hz");
        }
        steps = List.copyOf(steps);
    }

    /** A supply at rest. */
    public Mains(double rms, double frequencyHz) {
        this(rms, frequencyHz, Unrest.NONE, List.of());
    }

    /** Voltage at a time; rising through zero at 0. */
    public double voltage(double timeSeconds) {
        return level(timeSeconds) * Math.sqrt(2) * rms * Math.sin(2 * Math.PI * cycles(timeSeconds));
    }

    /** The voltage over the nominal one. */
    private double level(double timeSeconds) {
        double level = 1;
        if (unrest.flickerPercent > 0) {
            level += unrest.flickerPercent / 100 * Math.sin(2 * Math.PI * unrest.flickerHz * timeSeconds);
        }
        for (Step step : steps) {
            level += timeSeconds >= step.timeSeconds ? step.percent / 100 : 0;
        }
        return level;
    }

    /** Cycles since time 0. */
    double cycles(double timeSeconds) {
        double even = frequencyHz * timeSeconds;
        if (unrest.wanderPercent == 0) {
            return even;
        }
        double swing = 2 * Math.PI / unrest.wanderSeconds;
        return even + frequencyHz * unrest.wanderPercent / 100 * (1 - Math.cos(swing * timeSeconds)) / swing;
    }

    /** Nominal peak of the voltage [V]; above 0 also where the rms is 0. */
    double peak() {
        return Math.max(Double.MIN_NORMAL, Math.sqrt(2) * rms);
    }

    /** Length of a half-cycle at the mean frequency. */
    public double halfCycleSeconds() {
        return 0.5 / frequencyHz;
    }

    /** Number of the half-cycle a time lies in, from 0; a time within a nanosecond of its end counts to the next. */
    public long halfCycle(double timeSeconds) {
        return (long) Math.floor(2 * cycles(timeSeconds + SAME_SECONDS));
    }

    /** When a half-cycle begins. */
    public double startSeconds(long halfCycle) {
        double time = halfCycle * halfCycleSeconds();
        double step = unrest.wanderPercent > 0 ? 1 : 0;
        for (int i = 0; i < STEPS_TO_ZERO && Math.abs(step) > STILL_SECONDS; i++) {
            step = (cycles(time) - 0.5 * halfCycle) / frequencyHz;
            time -= step;
        }
        return time;
    }

    /** +1 in even half-cycles, -1 in odd ones. */
    public int polarity(double timeSeconds) {
        return halfCycle(timeSeconds) % 2 == 0 ? 1 : -1;
    }

    /** The next time after {@code seconds} at which the voltage steps; infinity if there is none. */
    double nextStepSeconds(double seconds) {
        for (Step step : steps) {
            if (step.timeSeconds > seconds + SAME_SECONDS) {
                return step.timeSeconds;
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
