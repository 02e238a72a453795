package org.steadyshaft.response;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.stability.MadeTrack;
import org.steadyshaft.stability.SteadyFinder;

/** The droop that lasts after a load is read where the speed has come to rest, however slowly it came back. */
class LoadEventFinderTest {
    /** At 20 s the speed sags by {@code dip} per cent and comes back to {@code lasting} below the level with a time constant. */
    private static LoadEvent only(double seconds, double dip, double lasting, double tau) {
        Random random = new Random(2);
        SpeedTrack track = MadeTrack.ofSpeed(new Tachometer(8), seconds, t -> {
            double since = t - 20;
            double away =
                    since < 0 ? 0 : -Math.expm1(-since / 0.15) * (lasting + (dip - lasting) * Math.exp(-since / tau));
            return 1000 * (1 - away / 100 + 2e-4 * random.nextGaussian());
        });
        List<LoadEvent> events = new LoadEventFinder().find(track, new SteadyFinder().find(track));
        assertEquals(1, events.size(), events.toString());
        return events.get(0);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 3, 6})
    void aSpeedThatComesAllTheWayBackDoesNotDroop(double tau) {
        LoadEvent event = only(80, 9, 0, tau);
        assertEquals(0, event.droopPercent().orElseThrow(), 0.1);
        assertEquals(20, event.timeSeconds(), 0.1);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 3})
    void whatStaysOffIsTheDroop(double tau) {
        assertEquals(2.5, only(80, 9, 2.5, tau).droopPercent().orElseThrow(), 0.15);
    }

    /** A hand that slows the shaft for some seconds and lets go is one load, however level the speed is meanwhile; no two steps. */
    @ParameterizedTest
    @ValueSource(doubles = {4, 9, 15})
    void aGripThatLetsGoIsOneLoad(double dip) {
        Random random = new Random(3);
        SpeedTrack track = MadeTrack.ofSpeed(new Tachometer(8), 45, t -> {
            double on = t < 20 ? 0 : -Math.expm1(-(t - 20) / 0.2);
            double off = t < 24.5 ? 1 : Math.exp(-(t - 24.5) / 0.2);
            return 1000 * (1 - dip / 100 * on * off + 2e-4 * random.nextGaussian());
        });
        List<Stretch> steady = new SteadyFinder().find(track);
        List<LoadEvent> events = new LoadEventFinder().find(track, steady);
        assertEquals(1, events.size(), events.toString());
        assertEquals(dip, events.get(0).dipPercent(), 0.2);
        assertEquals(0, events.get(0).droopPercent().orElseThrow(), 0.1);
        assertEquals(4.8, events.get(0).recoverySeconds().orElseThrow(), 0.6);
        assertEquals(List.of(), new StepFinder().find(track, steady));
    }

    /** A knob that is turned down for longer is a step down and one up. */
    @Test
    void aLongLowLevelIsTwoSteps() {
        SpeedTrack track = MadeTrack.ofSpeed(new Tachometer(8), 60, t -> t < 20 || t > 35 ? 1000 : 880);
        List<Stretch> steady = new SteadyFinder().find(track);
        assertEquals(2, new StepFinder().find(track, steady).size());
    }

    /** Half way back when the recording ends: the droop is where the return goes to, or nothing; never what is left of the dip. */
    @ParameterizedTest
    @ValueSource(doubles = {33, 36, 39, 44})
    void whatIsOnItsWayBackAtTheEndIsNoDroop(double seconds) {
        OptionalDouble droop = only(seconds, 9, 0, 7).droopPercent();
        assertTrue(droop.isEmpty() || Math.abs(droop.getAsDouble()) < 0.35, droop.toString());
    }
}
