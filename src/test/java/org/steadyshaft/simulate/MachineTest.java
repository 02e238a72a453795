package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.signal.DoubleSeries;

/** The simulated machine against physics that can be worked out by hand. */
class MachineTest {
    private static final Mains MAINS = new Mains(230, 50);
    private static final Motor SERIES = ScenarioReader.read("bench-unequal").motor();

    private static Machine machine(Motor motor, Load load) {
        return new Machine(motor, MAINS, OptionalDouble.empty(), load, Misfiring.NEVER, 1);
    }

    @Test
    void aShaftLeftAloneRunsDownExponentially() {
        Motor motor = new Motor(3, 0.02, 0, 0, 0, 1, 0, 0, 0.004, 0, 0.002, 0);
        Machine machine = new Machine(motor, new Mains(0, 50), OptionalDouble.empty(), Load.NONE, Misfiring.NEVER, 1);
        Motion motion = machine.run(new TimedDrive(180, 50, 0, false, false), 1500, 6);
        for (double t = 0.5; t < 6; t += 0.5) {
            double expected = 1500 * Math.exp(-t * 0.002 / 0.004);
            assertEquals(expected, motion.rpm(t), 1e-5 * 1500);
        }
    }

    @Test
    void theCurrentDoesNotStopBeforeItsZero() {
        Motion motion = machine(SERIES, Load.NONE.constant(0.05)).run(new TimedDrive(80, 50, 0, false, false), 1000, 1);
        int ends = 0;
        for (int i = 2; i < motion.points(); i++) {
            double slope = Math.abs(motion.current(i - 1) - motion.current(i - 2));
            if (motion.current(i) == 0 && motion.current(i - 1) != 0) {
                ends++;
                double bound = 1.2 * slope + 0.05;
                assertTrue(Math.abs(motion.current(i - 1)) < bound, "stops at " + motion.current(i - 1) + " A");
            }
        }
        assertTrue(ends > 90, "ends of current: " + ends);
        int past = 0;
        for (int half = 20; half < 90; half++) {
            int justAfterZero = (int) Math.round((half * 0.01 + 0.0005) / MotionRecorder.GRID_SECONDS);
            past += Math.abs(motion.current(justAfterZero)) > 0.01 ? 1 : 0;
        }
        assertTrue(past > 60, "an inductive current outlasts the voltage's zero: " + past + " of 70");
    }

    @Test
    void whatGoesInComesOutIsLostOrStored() {
        for (String name : ScenarioReader.names()) {
            Scenario s = ScenarioReader.read(name);
            Motion motion = new Machine(s.motor(), s.mains(), s.bypass(), s.load(), s.misfiring(), 1)
                    .run(s.drive().make(1), s.startRpm(), 5);
            Motion.Energy energy = motion.energy();
            double left = energy.in() - energy.lost() - energy.out() - energy.storedMore();
            assertTrue(energy.in() > 1, name + ": " + energy);
            assertEquals(0, left / energy.in(), 1e-3, name + ": " + energy);
        }
    }

    @Test
    void aResistorAcrossTheArmatureBoundsTheUnloadedSpeed() {
        Motor free = new Motor(3, 0.015, 2, 0.045, 0.055, 3, 0.004, 1.5, 0.0004, 0.005, 1e-5, 0);
        TimedDrive drive = new TimedDrive(90, 50, 0, true, false);
        double without = machine(free, Load.NONE).run(drive, 500, 5).rpm(5);
        Machine bounded = new Machine(free, MAINS, OptionalDouble.of(15), Load.NONE, Misfiring.NEVER, 1);
        Motion motion = bounded.run(drive, 500, 5);
        assertTrue(motion.rpm(5) < 0.6 * without, motion.rpm(5) + " rpm against " + without);
        assertEquals(motion.rpm(4), motion.rpm(5), 0.02 * motion.rpm(5), "it must have settled");
    }

    @Test
    void aFixedFieldSagsLessThanOneInSeries() {
        double seriesSag = sag(ScenarioReader.read("wheel1-rc-mid-light"));
        double fixedSag = sag(ScenarioReader.read("wheel1-dcfield-mid-light"));
        assertTrue(fixedSag < 0.7 * seriesSag, fixedSag + " against " + seriesSag);
    }

    private static double sag(Scenario scenario) {
        double light = run(scenario, 0.03);
        return 1 - run(scenario, 0.1) / light;
    }

    private static double run(Scenario scenario, double torque) {
        Motion motion = machine(scenario.motor(), Load.NONE.constant(torque))
                .run(scenario.drive().make(1), 1200, 10);
        return 60 * (motion.turns(10) - motion.turns(9));
    }

    @Test
    void aSmallerResistorFiresEarlierAndTurnsFaster() {
        double slow = 0;
        for (double resistance : new double[] {260e3, 230e3, 200e3, 170e3}) {
            RcDiacDrive drive = new RcDiacDrive(resistance, 100e-9, 32, 0, 6, false);
            double rpm =
                    machine(SERIES, Load.NONE.constant(0.03)).run(drive, 800, 8).rpm(8);
            assertTrue(rpm > slow + 100, resistance + " ohm: " + rpm + " rpm after " + slow);
            slow = rpm;
        }
    }

    @Test
    void aDiacThatBreaksOverUnequallyFiresTheHalfCyclesUnequally() {
        // the motor's remanence makes a little of it even with a fair diac
        assertTrue(unequalSeconds(0) < 1.2e-4, "a fair diac: unequal by " + unequalSeconds(0));
        assertTrue(unequalSeconds(6) > 2e-4, "an unfair diac: unequal by " + unequalSeconds(6));
    }

    /** How much longer it is from an even firing to the next than from an odd one. */
    private static double unequalSeconds(double asymmetryPercent) {
        RcDiacDrive drive = new RcDiacDrive(230e3, 100e-9, 32, asymmetryPercent, 6, false);
        DoubleSeries firings =
                machine(SERIES, Load.NONE.constant(0.03)).run(drive, 800, 6).firingSeconds();
        int n = firings.size() - 1;
        return Math.abs((firings.get(n) - firings.get(n - 1)) - (firings.get(n - 1) - firings.get(n - 2))) / 2;
    }

    @Test
    void withoutTheTachoTheControllerRunsAway() {
        Scenario scenario = ScenarioReader.read("bench-broken-lead");
        SimulatedCapture capture =
                scenario.make(1, OptionalDouble.empty(), scenario.recorder().kind());
        assertEquals(1165, capture.shaft().rpm(2.5), 12);
        assertTrue(
                capture.shaft().rpm(11.9) > 2 * 1165,
                "at the end " + capture.shaft().rpm(11.9));
    }

    @Test
    void refiringPushesUpAndMissingPullsDown() {
        SimulatedCapture refires = make("bench-refires", 3);
        SimulatedCapture misses = make("bench-misses", 3);
        assertTrue(refires.events().size() >= 5, "refires: " + refires.events());
        assertTrue(misses.events().size() >= 4, "misses: " + misses.events());
        assertTrue(
                refires.events().stream().allMatch(e -> e.peakPercent() > 2),
                refires.events().toString());
        assertTrue(
                misses.events().stream().allMatch(e -> e.peakPercent() < -0.2),
                misses.events().toString());
    }

    private static SimulatedCapture make(String name, long seed) {
        Scenario scenario = ScenarioReader.read(name);
        return scenario.make(seed, OptionalDouble.empty(), scenario.recorder().kind());
    }

    @Test
    void theSameSeedGivesTheSameRunAndAnotherSeedAnother() {
        assertEquals(make("bench-refires", 3).events(), make("bench-refires", 3).events());
        assertEquals(
                make("bench-refires", 3).meanRpm(), make("bench-refires", 3).meanRpm());
        assertNotEquals(
                make("bench-refires", 3).events(), make("bench-refires", 4).events());
    }

    /** A gate that is weak one way, and one that is held until the voltage passes the back EMF, get one pulse a half-cycle all the same. */
    @Test
    void aFiringThatIsPutOffIsNoSecondPulse() {
        Misfiring weak = new Misfiring(0, 0, 0, 0, 300e-6, Double.POSITIVE_INFINITY);
        Machine series = new Machine(SERIES, MAINS, OptionalDouble.empty(), Load.NONE.constant(0.02), weak, 1);
        assertEquals(
                100,
                series.run(new TimedDrive(130, 50, 0, false, false), 1000, 1)
                        .gateSeconds()
                        .size());
        Motor magnet = ScenarioReader.read("bench-magnet").motor();
        assertEquals(
                100,
                machine(magnet, Load.NONE)
                        .run(new TimedDrive(10, 50, 0, true, true), 1500, 1)
                        .gateSeconds()
                        .size());
    }

    @Test
    void unequalHalfCyclesSwingWithTheMains() {
        SimulatedCapture unequal = make("bench-unequal", 1);
        SimulatedCapture equal = make("wheel2-pulses-fast-light", 1);
        assertTrue(unequal.mainsPercent(1, 0, 20) > 3 * equal.mainsPercent(1, 0, 20), "50 Hz must show");
    }

    @ParameterizedTest
    @MethodSource("org.steadyshaft.simulate.ScenarioReader#names")
    void everyScenarioIsReadAndSaysWhatItIs(String name) {
        Scenario scenario = ScenarioReader.read(name);
        assertTrue(scenario.title().length() > 10);
        assertTrue(scenario.seconds() > 0 && scenario.polePairs() == 8);
    }

    @Test
    void aWrongScenarioIsRefusedWithFileAndKey() {
        String message = assertThrows(IllegalArgumentException.class, () -> ScenarioReader.parse("x", "title = 3\n"))
                .getMessage();
        assertEquals("x.toml: title: found '3'; expected a text", message);
        assertThrows(IllegalArgumentException.class, () -> ScenarioReader.parse("x", "title = "));
        assertThrows(IllegalArgumentException.class, () -> ScenarioReader.read("nothing"));
    }
}
