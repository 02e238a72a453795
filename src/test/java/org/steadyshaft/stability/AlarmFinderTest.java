package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/** What is an alarm and what is none: a speed that leaves its level for good, one that comes back, a limit, a stop, the end of the file. */
class AlarmFinderTest {
    private static final Tachometer TACHO = new Tachometer(8);

    private static List<Alarm.Code> alarms(
            double seconds, double recordedSeconds, OptionalDouble limit, DoubleUnaryOperator rpm) {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, seconds, rpm);
        List<Stretch> steady = new SteadyFinder().find(track);
        return new AlarmFinder(limit, recordedSeconds, s -> false)
                .find(track, steady, List.of()).stream().map(Alarm::code).toList();
    }

    private static List<Alarm.Code> alarms(double seconds, DoubleUnaryOperator rpm) {
        return alarms(seconds, seconds, OptionalDouble.empty(), rpm);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 1, 4})
    void aSpeedThatLeavesItsLevelRunsAway(double tau) {
        List<Alarm.Code> slow = alarms(20, t -> t < 12 ? 800 : 800 + 1900 * -Math.expm1(-(t - 12) / tau));
        assertEquals(List.of(Alarm.Code.RUNAWAY), slow, "tau " + tau);
    }

    @Test
    void aRunawayThatTheRecordingEndsInIsTold() {
        assertEquals(
                List.of(Alarm.Code.RUNAWAY), alarms(13.2, t -> t < 12 ? 800 : 800 * (1 + 0.6 * Math.pow(t - 12, 2))));
    }

    /** It hardly accelerates any more where the recording ends, and no second level has lasted: 2.7 times the speed is none that was asked for. */
    @Test
    void aRunawayThatFlattensBeforeTheRecordingEndsIsTold() {
        assertEquals(
                List.of(Alarm.Code.RUNAWAY),
                alarms(17.5, t -> t < 12 ? 800 : 800 + 1360 * -Math.expm1(-(t - 12) / 1.7)));
    }

    @Test
    void anOvershootThatComesBackIsNone() {
        assertTrue(alarms(
                        30,
                        t -> t < 10
                                ? 600
                                : 800
                                        + Math.exp(-(t - 10) / 0.6)
                                                * (-200 * Math.cos(5 * (t - 10)) + 420 * Math.sin(5 * (t - 10))))
                .isEmpty());
    }

    @Test
    void aSetPointThatSettlesIsNone() {
        assertTrue(alarms(30, t -> t < 10 ? 600 : 900 - 300 * Math.exp(-(t - 10) / 0.5))
                .isEmpty());
    }

    @Test
    void onlyAboveTheLimitIsOverspeed() {
        assertTrue(alarms(10, 10, OptionalDouble.of(820), t -> 800).isEmpty());
        assertEquals(List.of(Alarm.Code.OVERSPEED), alarms(10, 10, OptionalDouble.of(790), t -> 800));
    }

    @Test
    void aShaftThatCoastsToNothingHasStopped() {
        List<Alarm.Code> stopped =
                alarms(12.9, 20, OptionalDouble.empty(), t -> t < 8 ? 600 : Math.max(12, 600 * (1 - (t - 8) / 5)));
        assertEquals(List.of(Alarm.Code.STANDSTILL), stopped);
    }

    @Test
    void theEndOfTheFileIsNoStandstill() {
        assertTrue(alarms(20, 20.01, OptionalDouble.empty(), t -> 600).isEmpty());
        assertTrue(alarms(20, 20.01, OptionalDouble.empty(), t -> t < 17 ? 600 : 600 * Math.exp(-(t - 17) / 3))
                .isEmpty());
    }
}
