package org.steadyshaft.simulate;

import java.util.OptionalDouble;

/**
 * Phase control by a resistor, a capacitor and a diac: the capacitor charges from the voltage across the triac until the
 * diac breaks over, which empties part of it into the gate. What is left decides where the next half-cycle starts, which is
 * the snap-on of such circuits; a diac that breaks over at different voltages either way fires the half-cycles unequally.
 *
 * @param resistance of the knob and what is in series with it [ohm]
 * @param capacitance [F]
 * @param breakOverVoltage of the diac [V]; about 32 V (common practice)
 * @param asymmetryPercent by how much the positive break-over lies above the mean and the negative below it [%]
 * @param dumpVoltage by how much the capacitor falls when the diac fires [V]
 * @param rectified whether the motor sits behind a rectifier (field fed from DC)
 */
public record RcDiacDrive(
        double resistance,
        double capacitance,
        double breakOverVoltage,
        double asymmetryPercent,
        double dumpVoltage,
        boolean rectified)
        implements Drive {
    /** The dump of the capacitor makes a pulse of some tens of microseconds (common practice). */
    private static final double PULSE_SECONDS = 30e-6;

    public RcDiacDrive {
        if (!(resistance > 0) || !(capacitance > 0) || !(breakOverVoltage > 0) || !(dumpVoltage >= 0)) {
            throw new IllegalArgumentException("RC and diac out of range");
        }
    }

    @Override
    public OptionalDouble firing(double startSeconds, Shaft shaft) {
        return OptionalDouble.empty();
    }

    @Override
    public boolean holdsGate() {
        return false;
    }

    @Override
    public double gatePulseSeconds() {
        return PULSE_SECONDS;
    }

    @Override
    public boolean hasCapacitor() {
        return true;
    }

    @Override
    public double capacitorSlope(double triacVoltage, double capacitorVoltage) {
        return (triacVoltage - capacitorVoltage) / (resistance * capacitance);
    }

    @Override
    public double breakOver(double capacitorVoltage) {
        double share = 1 + Math.signum(capacitorVoltage) * asymmetryPercent / 100;
        return Math.abs(capacitorVoltage) - share * breakOverVoltage;
    }

    @Override
    public double afterBreakOver(double capacitorVoltage) {
        return Math.signum(capacitorVoltage) * Math.max(0, Math.abs(capacitorVoltage) - dumpVoltage);
    }
}
