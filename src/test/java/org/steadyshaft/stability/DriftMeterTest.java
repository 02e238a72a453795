package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

class DriftMeterTest {
    private static final Tachometer TACHO = new Tachometer(8);
    private static final double RPM = 600;

    /** Without noise the slope comes out as drawn, but for the curve that cycles' own lengths bring (below 1e-4 of it). */
    @ParameterizedTest
    @ValueSource(doubles = {-3, -0.1, 0.5, 2})
    void slopeOfAnEvenCreep(double percentPerMinute) {
        Drift drift = measure(creeping(percentPerMinute, 30), List.of()).orElseThrow();
        assertEquals(percentPerMinute, drift.percentPerMinute(), 1e-3 * Math.abs(percentPerMinute));
        assertTrue(drift.significant());
    }

    @Test
    void evenTurningHasNoDrift() {
        Drift drift = measure(creeping(0, 30), List.of()).orElseThrow();
        assertEquals(0, drift.percentPerMinute(), 1e-8);
        assertFalse(drift.significant());
    }

    /** Blips at one end lean on the slope unless they are left out. */
    @Test
    void leftOutBlipsDoNotLean() {
        Random random = new Random(3);
        List<Stretch> blips = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            blips.add(new Stretch(22 + 1.1 * i, 22.4 + 1.1 * i));
        }
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 30, t -> {
            boolean blip = blips.stream().anyMatch(b -> t > b.fromSeconds() + 0.01 && t < b.toSeconds() - 0.01);
            return RPM * (1 + 1e-4 * random.nextGaussian()) * (blip ? 1.1 : 1);
        });
        double with = measure(track, List.of()).orElseThrow().percentPerMinute();
        Drift without = measure(track, blips).orElseThrow();
        assertTrue(with > 2, "slope with the blips: " + with);
        assertEquals(0, without.percentPerMinute(), 0.1);
        assertFalse(without.significant(), without::toString);
    }

    /** The longest stretch alone: another at another level makes no slope. */
    @Test
    void longestStretchAlone() {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 40, t -> t < 15 ? RPM : 1.1 * RPM);
        List<Stretch> steady = List.of(new Stretch(0, 15), new Stretch(15.1, 40));
        Drift drift = new DriftMeter().measure(track, steady, List.of()).orElseThrow();
        assertEquals(0, drift.percentPerMinute(), 1e-6);
    }

    @Test
    void tooShortIsAbsent() {
        SpeedTrack track = creeping(1, 30);
        DriftMeter meter = new DriftMeter();
        assertEquals(Optional.empty(), meter.measure(track, List.of(), List.of()), "no stretch");
        assertEquals(Optional.empty(), meter.measure(track, List.of(new Stretch(2, 11.9)), List.of()), "9.9 s");
        assertTrue(
                meter.measure(track, List.of(new Stretch(2, 12.1)), List.of()).isPresent(), "10.1 s");
        assertEquals(
                Optional.empty(),
                meter.measure(track, MadeTrack.whole(track), List.of(new Stretch(3, 30))),
                "nearly all left out");
    }

    @Test
    void fewCyclesAreAbsent() {
        SpeedTrack track = MadeTrack.ofSpeed(new Tachometer(1), 20, t -> 120);
        assertEquals(Optional.empty(), measure(track, List.of()), "40 cycles in 20 s");
    }

    @ParameterizedTest
    @CsvSource({"0, 1, 2", "3, 1, 2", "NaN, 0, 1", "0, NaN, 1", "0, -Infinity, 1"})
    void nonsenseIsRefused(double percentPerMinute, double low95, double high95) {
        assertThrows(IllegalArgumentException.class, () -> new Drift(percentPerMinute, low95, high95));
    }

    @ParameterizedTest
    @CsvSource({"1, 0.5, 2, true", "-1, -2, -0.5, true", "0.1, -1, 1.2, false", "0, 0, 0, false"})
    void significance(double percentPerMinute, double low95, double high95, boolean expected) {
        assertEquals(expected, new Drift(percentPerMinute, low95, high95).significant());
    }

    private static SpeedTrack creeping(double percentPerMinute, double seconds) {
        return MadeTrack.ofSpeed(TACHO, seconds, t -> RPM * (1 + 0.01 * percentPerMinute / 60 * (t - 0.5 * seconds)));
    }

    private static Optional<Drift> measure(SpeedTrack track, List<Stretch> leftOut) {
        return new DriftMeter().measure(track, MadeTrack.whole(track), leftOut);
    }
}
