package org.steadyshaft.simulate;

import java.util.OptionalDouble;
import org.hipparchus.ode.OrdinaryDifferentialEquation;

/**
 * The differential equations of motor, supply and timing capacitor in one state of the triac. The state holds line current,
 * armature current, angular speed, turns, capacitor voltage, and the energies taken in, lost and given out.
 */
final class MachineEquations implements OrdinaryDifferentialEquation {
    static final int LINE_CURRENT = 0;
    static final int ARMATURE_CURRENT = 1;
    static final int ANGULAR_SPEED = 2;
    static final int TURNS = 3;
    static final int CAPACITOR = 4;
    static final int ENERGY_IN = 5;
    static final int ENERGY_LOST = 6;
    static final int ENERGY_OUT = 7;
    static final int DIMENSION = 8;

    /** What the triac does. */
    enum Mode {
        /** Nothing flows in the line. */
        OFF,
        /** It conducts. */
        ON,
        /** Behind a rectifier: it went out, and the motor's current runs on through the rectifier. */
        FREEWHEEL
    }

    /** Brush drop takes its sign from the current over this range [A], so that it has no step at zero. */
    private static final double DROP_RANGE = 0.02;

    /** Voltage across a triac that conducts [V]; common practice. */
    private static final double ON_VOLTAGE = 1.2;

    /** A field without current keeps this share by remanence (common practice: some percent to a tenth) and decays so fast. */
    private static final double REMANENCE = 0.1;

    private static final double FIELD_SECONDS = 0.1;

    private final Motor motor;
    private final Mains mains;
    private final OptionalDouble bypass;
    private final Load load;
    private final Drive drive;
    private final double fieldLostSeconds;
    private Mode mode = Mode.OFF;

    MachineEquations(Motor motor, Mains mains, OptionalDouble bypass, Load load, Drive drive, double fieldLostSeconds) {
        if (bypass.isPresent() && !(motor.isSeries() && motor.fieldInductance() > 0)) {
            throw new IllegalArgumentException("a resistor across the armature needs a field in series");
        }
        this.motor = motor;
        this.mains = mains;
        this.bypass = bypass;
        this.load = load;
        this.drive = drive;
        this.fieldLostSeconds = fieldLostSeconds;
    }

    Mode mode() {
        return mode;
    }

    void become(Mode next) {
        mode = next;
    }

    @Override
    public int getDimension() {
        return DIMENSION;
    }

    /** Voltage that drives the motor [V]. */
    double drivingVoltage(double timeSeconds) {
        if (mode != Mode.ON) {
            return 0;
        }
        double voltage = mains.voltage(timeSeconds);
        return drive.rectified() ? Math.abs(voltage) : voltage;
    }

    /** Back EMF at no current [V]. */
    double restingEmf(double timeSeconds, double angularSpeed) {
        return motor.flux(0, fieldShare(timeSeconds)) * angularSpeed;
    }

    /** What is left of a field that is fed apart, once its supply is gone. */
    private double fieldShare(double timeSeconds) {
        return timeSeconds <= fieldLostSeconds
                ? 1
                : REMANENCE + (1 - REMANENCE) * Math.exp(-(timeSeconds - fieldLostSeconds) / FIELD_SECONDS);
    }

    /** Total inductance in the line [H]. */
    double lineInductance() {
        return motor.armatureInductance() + motor.fieldInductance();
    }

    @Override
    public double[] computeDerivatives(double t, double[] y) {
        double line = y[LINE_CURRENT];
        double armature = y[ARMATURE_CURRENT];
        double speed = y[ANGULAR_SPEED];
        double[] d = new double[DIMENSION];
        double driving = drivingVoltage(t);
        double flux = motor.flux(line, fieldShare(t)) * motor.roughness().flux(y[TURNS]);
        double emf = flux * speed;
        double drop = motor.brushDrop() * Math.tanh(armature / DROP_RANGE);
        double lost = armature * (motor.armatureResistance() * armature + drop);
        if (bypass.isPresent()) {
            double across = bypass.getAsDouble() * (line - armature);
            d[ARMATURE_CURRENT] =
                    (across - motor.armatureResistance() * armature - drop - emf) / motor.armatureInductance();
            if (mode != Mode.OFF) {
                d[LINE_CURRENT] = (driving - motor.fieldResistance() * line - across) / motor.fieldInductance();
            }
            lost += across * (line - armature) + motor.fieldResistance() * line * line;
        } else if (mode != Mode.OFF) {
            double resistance = motor.armatureResistance() + motor.fieldResistance();
            d[LINE_CURRENT] = (driving - resistance * line - drop - emf) / lineInductance();
            d[ARMATURE_CURRENT] = d[LINE_CURRENT];
            lost += motor.fieldResistance() * line * line;
        }
        double resisting = motor.drag(speed) + motor.opposing(speed) * load.torque(t, y[TURNS]);
        d[ANGULAR_SPEED] = (flux * armature - resisting) / motor.inertia();
        d[TURNS] = speed / (2 * Math.PI);
        d[CAPACITOR] = drive.capacitorSlope(triacVoltage(t, line, speed), y[CAPACITOR]);
        d[ENERGY_IN] = driving * line;
        d[ENERGY_LOST] = lost;
        d[ENERGY_OUT] = resisting * speed;
        return d;
    }

    private double triacVoltage(double t, double line, double speed) {
        double voltage = mains.voltage(t);
        return switch (mode) {
            case ON -> ON_VOLTAGE * Math.signum(drive.rectified() ? voltage : line);
            case FREEWHEEL -> voltage;
            case OFF ->
                drive.rectified()
                        ? Math.signum(voltage) * Math.max(0, Math.abs(voltage) - restingEmf(t, speed))
                        : voltage - restingEmf(t, speed);
        };
    }

    /** Energy in inductances and inertia [J]. */
    double stored(double[] y) {
        double line = y[LINE_CURRENT];
        double armature = y[ARMATURE_CURRENT];
        return 0.5 * motor.armatureInductance() * armature * armature
                + 0.5 * motor.fieldInductance() * line * line
                + 0.5 * motor.inertia() * y[ANGULAR_SPEED] * y[ANGULAR_SPEED];
    }
}
