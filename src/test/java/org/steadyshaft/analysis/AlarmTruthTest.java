package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.stability.Alarm;

/** What is dangerous is told; what is meant (a set-point, a start, a sweep, a hunt) is not. */
class AlarmTruthTest {
    private static Settings settings(double rpm, long seed) {
        return Settings.clean(8000, 16).withShape(0.2 * 1000 / rpm, 0.03, 0.05).withNoise(0.001, seed);
    }

    private static List<Alarm> alarms(DrawnSpeed speed, double rpm, long seed) {
        return Analysed.rotation(new DrawnTacho("run", speed, settings(rpm, seed)))
                .alarms();
    }

    private static void assertOne(Alarm.Code code, List<Alarm> alarms) {
        assertEquals(List.of(code), alarms.stream().map(Alarm::code).toList(), alarms.toString());
    }

    /** The belt comes off at 8 s: the speed climbs until the recording ends, or until the power is cut. */
    @ParameterizedTest(name = "factor {0}")
    @ValueSource(doubles = {1.5, 2, 3, 5})
    void aRunawayIsTold(double factor) {
        for (int seed = 0; seed < Thorough.count(1, 5); seed++) {
            double rpm = Seeds.between(Seeds.random(seed), 500, 2500);
            DrawnSpeed open = DrawnSpeed.level(rpm).ramp(8, 16, 100 * (factor - 1));
            List<Alarm> alarms = alarms(open, rpm, seed);
            assertOne(Alarm.Code.RUNAWAY, alarms);
            assertEquals(8, alarms.get(0).where().fromSeconds(), 1.5, alarms.toString());
            DrawnSpeed cut =
                    DrawnSpeed.level(rpm).ramp(8, 12, 100 * (factor - 1)).ramp(12, 15.5, -70 * (factor - 1));
            assertOne(Alarm.Code.RUNAWAY, alarms(cut, rpm, seed));
        }
    }

    @ParameterizedTest(name = "stops for {0} s")
    @ValueSource(doubles = {1, 3})
    void aStandstillWithinARunIsTold(double seconds) {
        for (int seed = 0; seed < Thorough.count(1, 5); seed++) {
            double rpm = Seeds.between(Seeds.random(seed), 600, 2500);
            DrawnSpeed speed = DrawnSpeed.level(rpm).ramp(6, 6.8, -99.99).ramp(6.8 + seconds, 7.6 + seconds, 99.99);
            List<Alarm> alarms = alarms(speed, rpm, seed);
            assertOne(Alarm.Code.STANDSTILL, alarms);
            assertEquals(6.75, alarms.get(0).where().fromSeconds(), 0.4, alarms.toString());
            assertTrue(alarms.get(0).text().contains("stopped"), alarms.toString());
        }
    }

    @Test
    void aShaftThatStopsForGoodIsTold() {
        DrawnSpeed speed = DrawnSpeed.level(1200).ramp(9, 10, -99.99);
        assertOne(Alarm.Code.STANDSTILL, alarms(speed, 1200, 3));
    }

    @Test
    void aSpeedAboveTheLimitIsTold() {
        DrawnSpeed speed = DrawnSpeed.level(1000).step(5, 20, 0.3).step(9, -20, 0.3);
        AnalysisSettings limited = new AnalysisSettings(
                8,
                AnalysisSettings.PolePairsFrom.OPTION,
                50,
                Optional.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(1150));
        List<Alarm> alarms = Analysed.with(new DrawnTacho("limit", speed, settings(1000, 4)), limited)
                .alarms();
        assertOne(Alarm.Code.OVERSPEED, alarms);
        assertEquals(5.4, alarms.get(0).where().fromSeconds(), 0.3);
        assertEquals(9.1, alarms.get(0).where().toSeconds(), 0.3);
    }

    @Test
    void whatIsMeantRaisesNoAlarm() {
        for (int seed = 0; seed < Thorough.count(1, 6); seed++) {
            Random random = Seeds.random(seed);
            double rpm = Seeds.between(random, 500, 2000);
            List<DrawnSpeed> meant = List.of(
                    DrawnSpeed.level(rpm).step(6, Seeds.between(random, 20, 120), 0.5),
                    DrawnSpeed.level(rpm).step(6, -40, 0.5),
                    DrawnSpeed.level(0.2 * rpm).ramp(0.5, 3, 400),
                    DrawnSpeed.level(0.3 * rpm).ramp(0, 16, 500),
                    DrawnSpeed.level(rpm).line(1.2, 8, 0),
                    DrawnSpeed.level(rpm).blip(5, 0.01, 12, 0.3).blip(9, 0.01, -12, 0.3));
            for (DrawnSpeed speed : meant) {
                assertEquals(List.of(), alarms(speed, rpm, seed), "seed " + seed + ", case " + meant.indexOf(speed));
            }
        }
    }
}
