package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;

/**
 * The simulated machine against handbook laws.
 *
 * <p>SERIES (standard relation; torque law read, ratios recomputed): an ideal series motor turns with one over the square
 * root of the torque. Tolerance 1 %: the motor here keeps a little resistance and inductance, without which the equations
 * have no solution. RASHID, ac voltage controllers (formula from memory, recomputed by integration): rms voltage of phase
 * control with a resistive load. Tolerance 0.1 %: the resistor keeps an inductance of 20 microhenry.
 */
class MachinePublishedTest {
    private static final Mains LOW_MAINS = new Mains(23, 50);

    /** Hardly any resistance, no saturation, no losses. */
    private static final Motor IDEAL = new Motor(1e-3, 1e-3, 1e-3, 1e-3, 0.05, 1e9, 1e-3, 0, 2e-4, 0, 0, 0);

    static Stream<PublishedTable.Row> seriesRows() {
        return PublishedTable.rows("series_motor_ideal.csv").stream();
    }

    private static double steadySpeed(double torque) {
        Machine machine =
                new Machine(IDEAL, LOW_MAINS, OptionalDouble.empty(), Load.NONE.constant(torque), Misfiring.NEVER, 1);
        Motion motion = machine.run(new TimedDrive(0, 50, 0, true, false), 900 / Math.sqrt(torque), 20);
        return 60 * (motion.turns(20) - motion.turns(18)) / 2;
    }

    @ParameterizedTest
    @MethodSource("seriesRows")
    void anIdealSeriesMotorTurnsWithTheRootOfTheTorque(PublishedTable.Row row) {
        double expected = row.number("speed_ratio");
        assertEquals(expected, steadySpeed(0.05 * row.number("torque_ratio")) / steadySpeed(0.05), 0.01 * expected);
    }

    @Test
    void aSeriesMotorWithoutLoadRunsAway() {
        Machine machine = new Machine(IDEAL, LOW_MAINS, OptionalDouble.empty(), Load.NONE, Misfiring.NEVER, 1);
        Motion motion = machine.run(new TimedDrive(0, 50, 0, true, false), 1000, 8);
        for (int second = 1; second < 8; second++) {
            assertTrue(motion.rpm(second + 1) > 1.02 * motion.rpm(second), "at " + second + " s " + motion.rpm(second));
        }
        assertTrue(motion.rpm(8) > 8000, "after 8 s " + motion.rpm(8));
    }

    static Stream<PublishedTable.Row> angleRows() {
        return PublishedTable.rows("phase_angle_rms.csv", row -> row.number("firing_angle_deg") <= 150).stream();
    }

    @ParameterizedTest
    @MethodSource("angleRows")
    void phaseControlGivesTheHandbooksVoltage(PublishedTable.Row row) {
        double resistance = 10;
        Motor resistor = new Motor(resistance, 2e-5, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0);
        Machine machine =
                new Machine(resistor, new Mains(230, 50), OptionalDouble.empty(), Load.NONE, Misfiring.NEVER, 1);
        double angle = row.number("firing_angle_deg");
        Motion motion = machine.run(new TimedDrive(angle, 50, 0, true, false), 0, 0.1);
        double rms = Math.sqrt(motion.energy().in() * resistance / 0.1);
        assertEquals(row.number("full_wave_controller_vrms_over_v"), rms / 230, 1e-3);
    }

    /**
     * J dw/dt = -(Tc + B w): the worked example of the check values (computed from the equation) has J 0.0015 kg m2, B 2e-4, Tc 0.03, from 200
     * rad/s: 156.311 rad/s after a second and a stop after 6.35473 s.
     */
    @Test
    void coastDownWithDryAndViscousFriction() {
        Motor motor = new Motor(3, 0.02, 0, 0, 0, 1, 0, 0, 0.0015, 0.03, 2e-4, 0);
        Machine machine = new Machine(motor, new Mains(0, 50), OptionalDouble.empty(), Load.NONE, Misfiring.NEVER, 1);
        Motion motion = machine.run(new TimedDrive(180, 50, 0, false, false), 200 * 30 / Math.PI, 7);
        assertEquals(156.311, motion.rpm(1) * Math.PI / 30, 0.01);
        assertEquals(
                1.9, motion.rpm(6.26) * Math.PI / 30, 0.1, "(0.03 + B w) / J more or less 20 rad/s2 before the stop");
        assertEquals(0, motion.rpm(6.6), 0.5);
    }

    /**
     * Shortest gate pulse L I / (V sin a): 60 mH, 50 mA, 230 V rms need 53.1 us at 170 degrees (check values, computed); the timer's 60 us are
     * enough there, and no more beyond asin(L I / (V 60 us)) = 171.16 degrees.
     */
    @ParameterizedTest
    @CsvSource({"150, true", "170, true", "171, true", "171.4, false", "173, false"})
    void latchingOnAnInductiveLoad(double angle, boolean latches) {
        Motor motor = new Motor(3, 0.015, 2, 0.045, 0.055, 3, 0, 1.5, 1e3, 0, 0, 0);
        Machine machine =
                new Machine(motor, new Mains(230, 50), OptionalDouble.empty(), Load.NONE, new Misfiring(0, 0, 0.05), 1);
        Motion motion = machine.run(new TimedDrive(angle, 50, 0, false, false), 0, 0.2);
        assertEquals(
                latches,
                motion.firingSeconds().size() > 15,
                "fired " + motion.firingSeconds().size());
        assertEquals(
                !latches,
                motion.disturbances().size() > 15,
                "missed " + motion.disturbances().size());
        assertEquals(20, motion.gateSeconds().size());
    }

    /**
     * An ideal series motor without load that only its fan brakes: k (V / k w)^2 = D w^2, so w = (V^2 / (k D))^(1/4) (textbook relations of the
     * ideal series motor).
     */
    @Test
    void theFanBoundsARunaway() {
        Motor motor = new Motor(1e-3, 1e-3, 1e-3, 1e-3, 0.05, 1e9, 0, 0, 2e-4, 0, 0, 1e-6);
        Machine machine = new Machine(motor, LOW_MAINS, OptionalDouble.empty(), Load.NONE, Misfiring.NEVER, 1);
        double expected = Math.pow(23 * 23 / (0.05 * 1e-6), 0.25) * 30 / Math.PI;
        assertEquals(
                expected,
                machine.run(new TimedDrive(0, 50, 0, true, false), 2500, 20).rpm(20),
                0.02 * expected);
    }

    /**
     * A separately excited motor on smoothed rectified mains sags by R T / k^2 (textbook relation), w = (U - R T / k) / k with U = 2 sqrt(2) / pi of
     * the rms voltage; a series motor's speed goes with one over the root of the torque instead.
     */
    @ParameterizedTest
    @CsvSource({"0.3", "0.6", "1.2"})
    void aSeparatelyExcitedMotorSagsByItsResistance(double torque) {
        Motor motor = new Motor(3, 0.5, 0, 0, 0, 1, 0.32, 0, 0.01, 0, 0, 0);
        Machine machine =
                new Machine(motor, LOW_MAINS, OptionalDouble.empty(), Load.NONE.constant(torque), Misfiring.NEVER, 1);
        double volts = 2 * Math.sqrt(2) / Math.PI * 23;
        double expected = (volts - 3 * torque / 0.32) / 0.32 * 30 / Math.PI;
        Motion motion = machine.run(new TimedDrive(0, 50, 0, true, true), expected, 12);
        assertEquals(expected, 60 * (motion.turns(12) - motion.turns(11)), 0.03 * volts / 0.32 * 30 / Math.PI);
    }

    /** Wheel and belt turn by the ratio of their lengths, less what slips (kinematics). */
    @Test
    void beltAndWheelTurnByTheirLengths() {
        Load.Belt belt = new Load.Belt(8.3, 5.7, 1.5);
        assertEquals(0.985 * 100 / 8.3, belt.wheelTurns(100), 1e-12);
        assertEquals(0.985 * 100 / 5.7, belt.beltTurns(100), 1e-12);
        Load lump = Load.NONE.belt(new Load.Belt(10, 6, 0), 0.5, 0);
        assertEquals(0.5, lump.torque(0, 2.5), 1e-12);
        assertEquals(-0.5, lump.torque(0, 7.5), 1e-12);
        Load seam = Load.NONE.belt(new Load.Belt(10, 6, 0), 0, 0.2);
        assertEquals(0.2, seam.torque(0, 6 * (3 + 0.02)), 1e-12);
        assertEquals(0, seam.torque(0, 6 * 3.5), 1e-12);
    }
}
