package org.steadyshaft.simulate;

import java.util.OptionalDouble;

/**
 * Firing at a fixed angle by a timer that starts at each zero of the mains, either by one short pulse or by a train of pulses that
 * holds the gate to the end of the half-cycle. One instance drives one run: it counts the half-cycles.
 */
public final class TimedDrive implements Drive {
    /**
     * Everything that can be set.
     *
     * @param angleDegrees firing angle, 0 (whole half-cycle) to 180 (nothing)
     * @param mainsHz frequency that the timer is made for
     * @param unequalDegrees by how much odd half-cycles fire later
     * @param holdsGate whether the pulses go on to the end of the half-cycle
     * @param overrunSeconds by how much such a train goes on beyond the zero
     * @param rectified whether the motor sits behind a rectifier
     */
    public record Settings(
            double angleDegrees,
            double mainsHz,
            double unequalDegrees,
            boolean holdsGate,
            double overrunSeconds,
            boolean rectified) {
        public Settings {
            if (!(angleDegrees >= 0) || !(angleDegrees <= 180) || !(mainsHz > 0)) {
                throw new IllegalArgumentException(
                        "firing angle " + angleDegrees + " degrees at " + mainsHz + " Hz; expected 0 to 180 degrees");
            }
            if (!(overrunSeconds >= 0) || overrunSeconds > 0.25 / mainsHz) {
                throw new IllegalArgumentException("a gate train overruns the zero by " + overrunSeconds
                        + " s; expected at most half a half-cycle");
            }
        }
    }

    private static final double PULSE_SECONDS = 60e-6;

    private final Settings settings;
    private boolean odd = true;

    public TimedDrive(Settings settings) {
        this.settings = settings;
    }

    /** A timer whose train, if there is one, ends with the half-cycle. */
    public TimedDrive(
            double angleDegrees, double mainsHz, double unequalDegrees, boolean holdsGate, boolean rectified) {
        this(new Settings(angleDegrees, mainsHz, unequalDegrees, holdsGate, 0, rectified));
    }

    @Override
    public boolean rectified() {
        return settings.rectified();
    }

    @Override
    public OptionalDouble firing(double startSeconds, Shaft shaft) {
        odd = !odd;
        double angle = settings.angleDegrees() + (odd ? settings.unequalDegrees() : 0);
        return angle >= 180
                ? OptionalDouble.empty()
                : OptionalDouble.of(startSeconds + angle / 180 * 0.5 / settings.mainsHz());
    }

    @Override
    public boolean holdsGate() {
        return settings.holdsGate();
    }

    @Override
    public double overrunSeconds() {
        return settings.overrunSeconds();
    }

    @Override
    public double gatePulseSeconds() {
        return settings.holdsGate() ? 0.5 / settings.mainsHz() : PULSE_SECONDS;
    }
}
