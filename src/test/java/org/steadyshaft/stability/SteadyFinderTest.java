package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/** Steady running is everything but run-ups, run-downs, steps, ramps and the tails of what was before. */
class SteadyFinderTest {
    private static final Tachometer TACHO = new Tachometer(8);

    private static List<Stretch> steady(double seconds, DoubleUnaryOperator rpm) {
        Random random = new Random(5);
        SpeedTrack track =
                MadeTrack.ofSpeed(TACHO, seconds, t -> rpm.applyAsDouble(t) * (1 + 2e-4 * random.nextGaussian()));
        return new SteadyFinder().find(track);
    }

    /** The only stretch. */
    private static Stretch one(List<Stretch> steady) {
        assertEquals(1, steady.size(), steady.toString());
        return steady.get(0);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.2, 0.8})
    void aLevelThatWandersIsSteadyFromEndToEnd(double percent) {
        Stretch all = one(steady(30, t -> 500 * (1 + percent / 100 * Math.sin(2 * Math.PI * 0.7 * t))));
        assertEquals(0, all.fromSeconds(), 0.3);
        assertEquals(30, all.toSeconds(), 0.3);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 1, 2.5})
    void aRunUpIsCutOffWithItsTail(double tau) {
        Stretch after = one(steady(40, t -> 60 + 540 * -Math.expm1(-t / tau)));
        double away = 540 * Math.exp(-after.fromSeconds() / tau) / 600;
        assertTrue(away < 0.015, after + ": " + away);
        assertTrue(after.fromSeconds() < 8 * tau, after.toString());
        assertEquals(40, after.toSeconds(), 0.3);
    }

    @Test
    void aRunDownIsCutOff() {
        Stretch before = one(steady(40, t -> t < 34 ? 600 : 600 * Math.exp(-(t - 34) / 3)));
        assertEquals(34, before.toSeconds(), 0.8);
    }

    @Test
    void aTailOfSomethingBeforeTheRecordingIsCutOff() {
        Stretch after = one(steady(60, t -> 600 * (1 + 0.035 * Math.exp(-t / 1.2))));
        assertTrue(0.035 * Math.exp(-after.fromSeconds() / 1.2) < 0.01, after.toString());
        assertTrue(after.fromSeconds() < 5, after.toString());
    }

    @Test
    void aStepPartsTwoLevels() {
        List<Stretch> steady = steady(40, t -> t < 20 ? 600 : 800 - 200 * Math.exp(-(t - 20) / 0.4));
        assertEquals(2, steady.size(), steady.toString());
        assertEquals(20, steady.get(0).toSeconds(), 0.8);
        assertTrue(steady.get(1).fromSeconds() > 20.4, steady.toString());
        assertTrue(steady.get(1).fromSeconds() < 24, steady.toString());
    }

    @Test
    void aRampIsNotSteady() {
        List<Stretch> steady = steady(40, t -> 600 + 30 * Math.max(0, Math.min(10, t - 15)));
        for (Stretch stretch : steady) {
            double inside = Math.min(stretch.toSeconds(), 24) - Math.max(stretch.fromSeconds(), 16);
            assertTrue(inside < 0, steady.toString());
        }
        assertEquals(2, steady.size(), steady.toString());
    }

    @Test
    void aShortExcursionPartsNothing() {
        one(steady(40, t -> 600 * (1 + (t < 20 ? 0 : 0.08 * Math.exp(-(t - 20) / 0.5)))));
    }
}
