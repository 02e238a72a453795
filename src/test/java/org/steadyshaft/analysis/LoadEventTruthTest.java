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
import org.steadyshaft.response.LoadEventFinder;
import org.steadyshaft.response.StepFinder;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.Scenario;
import org.steadyshaft.simulate.ScenarioReader;
import org.steadyshaft.simulate.SimulatedCapture;

/** Loads drawn and simulated, recorded, analysed: measured as they were made, and none where none was. */
class LoadEventTruthTest {
    /** The load events of a rotation, its blips left out. */
    static List<LoadEvent> loadEvents(Rotation rotation) {
        List<Stretch> blips = rotation.blips()
                .map(b -> b.events().stream()
                        .map(e -> new Stretch(e.fromSeconds(), e.toSeconds()))
                        .toList())
                .orElse(List.of());
        return new LoadEventFinder().find(rotation.track(), rotation.steady(), blips);
    }

    private static List<LoadEvent> events(Rotation rotation, String name) {
        assertEquals(List.of(), new StepFinder().find(rotation.track(), rotation.steady()), name + ": no step");
        return loadEvents(rotation);
    }

    private static List<LoadEvent> events(DrawnTacho recording) {
        return events(Analysed.rotation(recording), recording.name());
    }

    /** Dips of 3 to 12 % and rises, back within seconds; in hunting of 3 % those from 9 % on. */
    @ParameterizedTest
    @EnumSource
    void aDipThatComesBack(Trouble trouble) {
        for (long seed = 1; seed <= Thorough.count(2, 10); seed++) {
            Random random = new Random(400 + seed);
            double least = trouble.huntingPercent() > 0 ? 9 : 3;
            double dip = (least + 9 * random.nextDouble()) * (seed % 4 == 0 ? -1 : 1);
            double peakAfter = 0.2 + 0.5 * random.nextDouble();
            double at = 5 + 8 * random.nextDouble();
            double rpm = 600 + 1500 * random.nextDouble();
            DrawnSpeed speed = DrawnSpeed.level(rpm).dip(at, dip, peakAfter);
            List<LoadEvent> events = events(trouble.recording(speed, 20, seed));
            String what = trouble + " seed " + seed + " " + dip + " % at " + at + " s, " + peakAfter + " s, " + rpm
                    + " rpm: " + events;
            assertEquals(1, events.size(), what);
            LoadEvent event = events.get(0);
            double hunting = trouble.huntingPercent();
            assertEquals(at, event.timeSeconds(), 0.05 + 0.1 * hunting, what);
            assertEquals(dip, event.dipPercent(), 0.2 + hunting, what);
            if (hunting == 0) {
                assertEquals(0, event.droopPercent().orElseThrow(), 0.15, what);
                double recovery = lastOutside(speed, rpm, at) - at;
                assertEquals(recovery, event.recoverySeconds().orElseThrow(), 0.05 + 0.08 * recovery, what);
            }
        }
    }

    /** The last time at which the drawn speed is outside +-2 % of the level. */
    private static double lastOutside(DrawnSpeed speed, double rpm, double fromSeconds) {
        double last = fromSeconds;
        for (double t = fromSeconds; t < fromSeconds + 10; t += 0.001) {
            last = Math.abs(speed.rpm(t) / rpm - 1) > 0.02 ? t : last;
        }
        return last;
    }

    @ParameterizedTest(name = "{0} % for good")
    @ValueSource(doubles = {3, 5, 7, -4, -6})
    void aLastingDroop(double droop) {
        for (long seed = 1; seed <= Thorough.count(1, 3); seed++) {
            DrawnSpeed speed = DrawnSpeed.level(1100).step(9, -droop, 0.4).dip(9, 0.5 * droop, 0.3);
            List<LoadEvent> events = events(Trouble.ALL_BUT_HUNTING.recording(speed, 22, seed));
            assertEquals(1, events.size(), "seed " + seed + " " + events);
            LoadEvent event = events.get(0);
            double most = 0;
            for (double t = 9; t < 12; t += 0.01) {
                double away = 100 * (1 - speed.rpm(t) / 1100);
                most = Math.abs(away) > Math.abs(most) ? away : most;
            }
            assertEquals(9, event.timeSeconds(), 0.06);
            assertEquals(most, event.dipPercent(), 0.2);
            assertEquals(droop, event.droopPercent().orElseThrow(), 0.15);
            assertTrue(event.recoverySeconds().isEmpty(), "it stays outside the band: " + event);
        }
    }

    @Test
    void severalEventsInOneRecording() {
        DrawnSpeed speed = DrawnSpeed.level(800).dip(5, 4, 0.4).dip(13, 9, 0.3).dip(21, -5, 0.5);
        List<LoadEvent> events = events(Trouble.ALL_BUT_HUNTING.recording(speed, 30, 6));
        assertEquals(3, events.size(), events.toString());
        double[] times = {5, 13, 21};
        double[] dips = {4, 9, -5};
        for (int i = 0; i < 3; i++) {
            assertEquals(times[i], events.get(i).timeSeconds(), 0.06);
            assertEquals(dips[i], events.get(i).dipPercent(), 0.2);
        }
    }

    private static SimulatedCapture make(String name) {
        Scenario scenario = ScenarioReader.read(name);
        return scenario.make(1, OptionalDouble.empty(), scenario.recorder().kind());
    }

    /** Hands that grip at 7 s and at 15 s and let go again. */
    @Test
    void handsOnTheClay() {
        SimulatedCapture capture = make("bench-grip");
        List<LoadEvent> events = events(Analysed.rotation(capture.recording()), "bench-grip");
        assertEquals(2, events.size(), events.toString());
        double[] times = {7, 15};
        for (int i = 0; i < 2; i++) {
            double before = capture.meanRpm(times[i] - 2, times[i]);
            double least = before;
            for (double t = times[i]; t < times[i] + 1.5; t += 0.01) {
                least = Math.min(least, capture.meanRpm(t - 0.02, t + 0.02));
            }
            assertEquals(times[i], events.get(i).timeSeconds(), 0.06);
            assertEquals(100 * (1 - least / before), events.get(i).dipPercent(), 0.1);
            assertEquals(0, events.get(i).droopPercent().orElseThrow(), 0.1);
        }
    }

    @Test
    void aLoadOnAWheelWithoutAController() {
        SimulatedCapture capture = make("bench-load-step");
        List<LoadEvent> events = events(Analysed.rotation(capture.recording()), "bench-load-step");
        assertEquals(1, events.size(), events.toString());
        double droop = 100 * (1 - capture.meanRpm(36, 40) / capture.meanRpm(8, 12));
        assertEquals(12, events.get(0).timeSeconds(), 0.06);
        // it takes seconds to get there, and the level behind is told from when it hardly moves
        assertEquals(droop, events.get(0).droopPercent().orElseThrow(), 0.08 * droop);
        assertEquals(droop, events.get(0).dipPercent(), 0.08 * droop);
        assertTrue(events.get(0).recoverySeconds().isEmpty());
    }

    @ParameterizedTest
    @ValueSource(strings = {"bench-refires", "bench-start", "bench-misses"})
    void faultyFiringAndHuntingAreNoLoad(String name) {
        assertEquals(List.of(), Analysed.rotation(make(name).recording()).loadEvents(), name);
    }

    static LongStream runsAtOneSpeed() {
        return Thorough.seeds(3, 20);
    }

    /** Runs at one speed with all that is usual: ripple, hunting of any size, drift, wander, blips, pattern. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("runsAtOneSpeed")
    void noneIsInventedInARunAtOneSpeed(long seed) {
        Random random = new Random(500 + seed);
        DrawnSpeed speed = DrawnSpeed.level(300 + 2000 * random.nextDouble())
                .line(0.4 + 3 * random.nextDouble(), 12 * Math.pow(random.nextDouble(), 2), 1)
                .line(0.11, 0.6 * random.nextDouble(), 2)
                .line(0.23, 0.4 * random.nextDouble(), 4)
                .drift(6 * random.nextDouble() - 3);
        for (int i = 0; i < seed % 4; i++) {
            speed = speed.blip(3 + 25 * random.nextDouble(), 0.015, 12 * random.nextDouble() - 6, 0.2);
        }
        assertEquals(List.of(), events(Trouble.ALL_BUT_HUNTING.recording(speed, 30, seed)), "seed " + seed);
    }
}
