package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.response.StepFinder;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.Scenario;
import org.steadyshaft.simulate.ScenarioReader;
import org.steadyshaft.simulate.SimulatedCapture;

/** Steps drawn and simulated, recorded, analysed: measured as they were made, and none where none was. */
class StepTruthTest {
    private static final double AT_SECONDS = 7;
    private static final double SECONDS = 20;

    private static List<Step> steps(DrawnTacho recording) {
        Rotation rotation = Analysed.rotation(recording);
        List<LoadEvent> loads = LoadEventTruthTest.loadEvents(rotation);
        assertEquals(List.of(), loads, recording.name() + ": a step is no load event; steady " + rotation.steady());
        return new StepFinder().find(rotation.track(), rotation.steady());
    }

    private static Step only(DrawnTacho recording) {
        List<Step> steps = steps(recording);
        assertEquals(1, steps.size(), recording.name() + ": " + steps);
        return steps.get(0);
    }

    /** Up or down by 16 to 50 % of 700 to 1700 rpm. */
    private record Drawn(double fromRpm, double percent) {
        static Drawn of(Random random) {
            double percent = (16 + 34 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
            return new Drawn(700 + 1000 * random.nextDouble(), percent);
        }

        double toRpm() {
            return fromRpm * (1 + percent / 100);
        }

        double heightPercent() {
            return Math.abs(percent);
        }
    }

    /**
     * Hunting goes on through the step: what of it falls together with the beginning looks like a part of the change, up to a
     * quarter of its slowest period, 0.4 s, where the step is slow; it shifts the ends of the rise by as long as the step needs for
     * its amplitude, long at the flat end; and an overshoot no larger than itself is not told from it.
     */
    @ParameterizedTest
    @EnumSource
    void firstOrder(Trouble trouble) {
        for (long seed = 1; seed <= Thorough.count(2, 10); seed++) {
            Random random = new Random(100 + seed);
            Drawn drawn = Drawn.of(random);
            double constant = 0.15 + 0.85 * random.nextDouble();
            DrawnSpeed speed = DrawnSpeed.level(drawn.fromRpm()).step(AT_SECONDS, drawn.percent(), constant);
            Step step = only(trouble.recording(speed, SECONDS, seed));
            String what = trouble + " seed " + seed + " " + drawn + " " + constant + " s: " + step;
            double hunting = trouble.huntingPercent() / drawn.heightPercent();
            assertEquals(AT_SECONDS, step.timeSeconds(), hunting > 0 ? 0.3 : 0.05, what);
            assertEquals(drawn.fromRpm(), step.fromRpm(), (0.002 + 0.3 * hunting / 10) * drawn.fromRpm(), what);
            assertEquals(drawn.toRpm(), step.toRpm(), 0.004 * drawn.toRpm(), what);
            double rise = 2.19722 * constant;
            assertEquals(rise, step.riseTimeSeconds(), (0.04 + 8 * hunting) * rise, what);
            assertEquals(0, step.overshootPercent(), what);
            if (hunting == 0) {
                assertEquals(3.912 * constant, step.settlingTimeSeconds().orElseThrow(), 0.08 * 3.912 * constant, what);
            } else {
                assertTrue(step.settlingTimeSeconds().isEmpty(), what + ": it never settles while it hunts");
            }
        }
    }

    /**
     * Falls of up to 30 %: in faster and deeper ones the search for cycles leaves a gap in the track, and a change over a gap
     * is not measured.
     */
    @ParameterizedTest
    @EnumSource
    void secondOrder(Trouble trouble) {
        for (long seed = 1; seed <= Thorough.count(2, 10); seed++) {
            Random random = new Random(200 + seed);
            Drawn any = Drawn.of(random);
            Drawn drawn = new Drawn(any.fromRpm(), Math.max(any.percent(), -0.6 * any.heightPercent()));

            double damping = 0.25 + 0.4 * random.nextDouble();
            double natural = 2.5 + 2.5 * random.nextDouble();
            DrawnSpeed speed =
                    DrawnSpeed.level(drawn.fromRpm()).secondOrderStep(AT_SECONDS, drawn.percent(), natural, damping);
            Step step = only(trouble.recording(speed, SECONDS, seed));
            String what = trouble + " seed " + seed + " " + drawn + " w " + natural + " zeta " + damping + ": " + step;
            double hunting = trouble.huntingPercent() / drawn.heightPercent();
            double overshoot = 100 * Math.exp(-Math.PI * damping / Math.sqrt(1 - damping * damping));
            assertEquals(AT_SECONDS, step.timeSeconds(), hunting > 0 ? 0.3 : 0.05, what);
            assertEquals(drawn.toRpm(), step.toRpm(), 0.004 * drawn.toRpm(), what);
            assertTrue(
                    Math.abs(overshoot - step.overshootPercent()) < 1.5 + 110 * hunting
                            || hunting > 0 && step.overshootPercent() == 0 && overshoot < 250 * hunting,
                    what + ", overshoot " + overshoot);
            double rise = rise(speed, drawn);
            assertEquals(rise, step.riseTimeSeconds(), (0.04 + 4 * hunting) * rise, what + ", rise " + rise);
        }
    }

    /** 10 to 90 % of the drawn speed itself. */
    private static double rise(DrawnSpeed speed, Drawn drawn) {
        double at10 = 0;
        double at90 = 0;
        for (double t = AT_SECONDS; at90 == 0; t += 0.0005) {
            double share = (speed.rpm(t) - drawn.fromRpm()) / (drawn.toRpm() - drawn.fromRpm());
            at10 = at10 == 0 && share >= 0.1 ? t : at10;
            at90 = share >= 0.9 ? t : at90;
        }
        return at90 - at10;
    }

    @Test
    void severalStepsUpAndDown() {
        DrawnSpeed speed = DrawnSpeed.level(900)
                .step(7, 40, 0.3)
                .secondOrderStep(16, -25, 6, 0.5)
                .step(25, -20, 0.5);
        List<Step> steps = steps(Trouble.ALL_BUT_HUNTING.recording(speed, 34, 5));
        assertEquals(3, steps.size(), steps.toString());
        double[] times = {7, 16, 25};
        double[] levels = {900, 1260, 1035, 855};
        for (int i = 0; i < 3; i++) {
            assertEquals(times[i], steps.get(i).timeSeconds(), 0.05);
            assertEquals(levels[i], steps.get(i).fromRpm(), 0.003 * levels[i]);
            assertEquals(levels[i + 1], steps.get(i).toRpm(), 0.003 * levels[i + 1]);
        }
        assertEquals(16.3, steps.get(1).overshootPercent(), 1.5);
    }

    @Test
    void whatHasNotSettledHasNoSettlingTime() {
        DrawnSpeed speed = DrawnSpeed.level(900).secondOrderStep(8, 40, 3, 0.07);
        Step step = only(Trouble.NOISE.recording(speed, 22, 3));
        assertEquals(8, step.timeSeconds(), 0.05);
        assertTrue(step.settlingTimeSeconds().isEmpty(), step.toString());
    }

    @Test
    void theControllerOfTheScenario() {
        Scenario scenario = ScenarioReader.read("bench-set-point");
        SimulatedCapture capture =
                scenario.make(1, OptionalDouble.empty(), scenario.recorder().kind());
        Rotation rotation = Analysed.rotation(capture.recording());
        List<Step> steps = new StepFinder().find(rotation.track(), rotation.steady());
        assertEquals(1, steps.size(), steps.toString());
        Step step = steps.get(0);
        double from = capture.meanRpm(4, 7);
        double to = capture.meanRpm(16, 20);
        double peak = 0;
        for (double t = 8; t < 11; t += 0.01) {
            peak = Math.max(peak, capture.meanRpm(t - 0.01, t + 0.01));
        }
        Scenario.Step command = scenario.setPointSteps().get(0);
        assertEquals(command.timeSeconds(), step.timeSeconds(), 0.06, "the command, and a firing or two");
        assertEquals(from, step.fromRpm(), 0.001 * from);
        assertEquals(to, step.toRpm(), 0.001 * to);
        assertEquals(100 * (peak - to) / (to - from), step.overshootPercent(), 1);
    }

    static LongStream runsAtOneSpeed() {
        return Thorough.seeds(3, 20);
    }

    /** Runs at one speed with all that is usual: ripple, hunting of any size, drift, wander, blips, pattern. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("runsAtOneSpeed")
    void noneIsInventedInARunAtOneSpeed(long seed) {
        Random random = new Random(300 + seed);
        DrawnSpeed speed = DrawnSpeed.level(400 + 2000 * random.nextDouble())
                .line(0.4 + 3 * random.nextDouble(), 12 * Math.pow(random.nextDouble(), 2), 1)
                .drift(6 * random.nextDouble() - 3);
        for (int i = 0; i < seed % 4; i++) {
            speed = speed.blip(3 + 25 * random.nextDouble(), 0.015, 12 * random.nextDouble() - 6, 0.2);
        }
        assertEquals(List.of(), steps(Trouble.ALL_BUT_HUNTING.recording(speed, 30, seed)), "seed " + seed);
    }

    @Test
    void aSlowSweepAStartAndAShortDepartureAreNoSteps() {
        DrawnSpeed sweep = DrawnSpeed.level(500).ramp(0, 25, 200);
        assertEquals(List.of(), steps(Trouble.NOISE.recording(sweep, 25, 1)));
        for (String name : List.of("bench-start", "bench-hot-loop", "bench-refires", "bench-load-step", "bench-grip")) {
            Scenario scenario = ScenarioReader.read(name);
            Rotation rotation = Analysed.rotation(
                    scenario.make(2, OptionalDouble.empty(), scenario.recorder().kind())
                            .recording());
            assertEquals(List.of(), new StepFinder().find(rotation.track(), rotation.steady()), name);
        }
    }

    /** A shaft that doubles its speed within half a second is faster than a frame of the spectra: it is followed all the same. */
    @ParameterizedTest(name = "time constant {0} s")
    @ValueSource(doubles = {0.12, 0.18, 0.3})
    void aSpeedThatDoublesInNoTimeIsFollowed(double constantSeconds) {
        DrawnSpeed speed = DrawnSpeed.level(977).step(10.24, 99.3, constantSeconds);
        Step step = only(Trouble.NOISE.recording(speed, 20, 1));
        assertEquals(977, step.fromRpm(), 2);
        assertEquals(977 * 1.993, step.toRpm(), 4);
        assertEquals(Math.log(9) * constantSeconds, step.riseTimeSeconds(), 0.15 * Math.log(9) * constantSeconds);
    }

    /** A swinging step begins with a corner: none of what bends there is a blip. */
    @Test
    void theCornerOfAFastStepIsNoBlip() {
        DrawnSpeed speed = DrawnSpeed.level(659).step(7.7, -24, 0.06).ringingBlip(7.7, 0.12, -16, 0.31, 1);
        Rotation rotation = Analysed.rotation(Trouble.NOISE.recording(speed, 20, 3));
        assertEquals(List.of(), rotation.blips().orElseThrow().events());
    }
}
