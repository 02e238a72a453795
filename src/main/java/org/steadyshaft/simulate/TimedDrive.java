package org.steadyshaft.simulate;

import java.util.OptionalDouble;

/**
 * Firing at a fixed angle by a timer, either by one short pulse or by a train of pulses that holds the gate to the end of
 * the half-cycle.
 *
 * @param angleDegrees firing angle, 0 (whole half-cycle) to 180 (nothing)
 * @param mainsHz frequency of the mains, which the timer is locked to
 * @param unequalDegrees by how much odd half-cycles fire later
 * @param holdsGate whether the pulses go on to the end of the half-cycle
 * @param rectified whether the motor sits behind a rectifier
 */
public record TimedDrive(
        double angleDegrees, double mainsHz, double unequalDegrees, boolean holdsGate, boolean rectified)
        implements Drive {
    private static final double PULSE_SECONDS = 60e-6;

    public TimedDrive {
        if (!(angleDegrees >= 0) || !(angleDegrees <= 180) || !(mainsHz > 0)) {
            throw new IllegalArgumentException("firing angle " + angleDegrees + " degrees at " + mainsHz + " Hz");
        }
    }

    @Override
    public OptionalDouble firing(double startSeconds, Shaft shaft) {
        boolean odd = Math.round(startSeconds * 2 * mainsHz) % 2 == 1;
        double angle = angleDegrees + (odd ? unequalDegrees : 0);
        return angle >= 180 ? OptionalDouble.empty() : OptionalDouble.of(startSeconds + angle / 180 * 0.5 / mainsHz);
    }

    @Override
    public double gatePulseSeconds() {
        return holdsGate ? 0.5 / mainsHz : PULSE_SECONDS;
    }
}
