package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.CycleTimes;

class SmoothAngleTest {
    private static final int POLES = 8;
    private static final double CYCLE_HZ = 160;
    private static final double SECONDS = 20;

    /** Crossings of a shaft that turns evenly but for a swing of its angle [rad]. */
    private static CycleTimes cycles(double swingRad, double hz, double unevenShare) {
        CycleTimes.Builder cycles = new CycleTimes.Builder();
        double perCycle = 2 * Math.PI / POLES;
        double mean = perCycle * CYCLE_HZ;
        for (int i = 0; i < SECONDS * CYCLE_HZ; i++) {
            double angle = perCycle * (i + unevenShare * (i % POLES == 3 ? 1 : 0));
            double t = angle / mean;
            for (int round = 0; round < 30; round++) {
                t = (angle - swingRad * Math.sin(2 * Math.PI * hz * t)) / mean;
            }
            cycles.add(t);
        }
        return cycles.build();
    }

    @Test
    void anEvenTurningIsExactDespiteUnevenPoles() {
        CycleTimes cycles = cycles(0, 1, 0.03);
        SmoothAngle angle = SmoothAngle.through(cycles, 0, cycles.crossings(), POLES, 0.125);
        double[] rad = new double[1000];
        double[] radPerSecond = new double[1000];
        angle.fill(2, 0.01, rad, radPerSecond);
        for (int i = 1; i < rad.length; i++) {
            assertEquals(2 * Math.PI * CYCLE_HZ / POLES, radPerSecond[i], 1e-6);
            assertEquals(2 * Math.PI * CYCLE_HZ / POLES * 0.01, rad[i] - rad[i - 1], 1e-9);
        }
    }

    /** What passes of a swing is what {@link SmoothAngle#gain} says, from whole to nothing. */
    @ParameterizedTest(name = "{0} Hz")
    @ValueSource(doubles = {0.5, 1.3, 2.6, 3.7, 5.2, 9})
    void aSwingPassesAsTheGainSays(double hz) {
        double swing = 0.01;
        CycleTimes cycles = cycles(swing, hz, 0);
        SmoothAngle angle = SmoothAngle.through(cycles, 0, cycles.crossings(), POLES, 0.125);
        int count = 12000;
        double[] rad = new double[count];
        double[] radPerSecond = new double[count];
        double from = 4;
        angle.fill(from, 1e-3, rad, radPerSecond);
        double re = 0;
        double im = 0;
        for (int i = 0; i < count; i++) {
            double weight = (1 - Math.cos(2 * Math.PI * i / count)) / count;
            double rest = radPerSecond[i] - 2 * Math.PI * CYCLE_HZ / POLES;
            re += 2 * weight * rest * Math.cos(2 * Math.PI * hz * (from + 1e-3 * i));
            im += 2 * weight * rest * Math.sin(2 * Math.PI * hz * (from + 1e-3 * i));
        }
        double passed = Math.hypot(re, im) / (2 * Math.PI * hz * swing);
        assertEquals(Math.abs(angle.gain(hz)), passed, 0.004);
    }
}
