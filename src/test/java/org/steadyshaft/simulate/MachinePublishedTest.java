package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
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
}
