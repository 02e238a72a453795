package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TurnVoltageTest {
    private static TurnVoltage made(int orders, long seed) {
        Random random = new Random(seed);
        return TurnVoltage.of(
                random.doubles(orders, -1, 1).toArray(),
                random.doubles(orders, -1, 1).toArray());
    }

    private static double plainValue(TurnVoltage turn, double angle) {
        double sum = 0;
        for (int k = 1; k <= turn.orders(); k++) {
            sum += turn.cosine(k) * Math.cos(k * angle) + turn.sine(k) * Math.sin(k * angle);
        }
        return sum;
    }

    private static double plainSlope(TurnVoltage turn, double angle) {
        double sum = 0;
        for (int k = 1; k <= turn.orders(); k++) {
            sum += k * (turn.sine(k) * Math.cos(k * angle) - turn.cosine(k) * Math.sin(k * angle));
        }
        return sum;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 5, 24, 60})
    void theTableGivesTheSeriesAndItsSlope(int orders) {
        TurnVoltage turn = made(orders, orders);
        double[] angle = new Random(7).doubles(2000, -50, 50).toArray();
        double[] value = new double[angle.length];
        double[] slope = new double[angle.length];
        turn.fill(angle, value, slope, angle.length);
        for (int i = 0; i < angle.length; i++) {
            assertEquals(plainValue(turn, angle[i]), turn.value(angle[i]), 1e-6 * Math.sqrt(orders));
            assertEquals(plainSlope(turn, angle[i]), turn.slope(angle[i]), 1e-6 * orders * Math.sqrt(orders));
            assertEquals(turn.value(angle[i]), value[i], 1e-12);
            assertEquals(turn.slope(angle[i]), slope[i], 1e-12 * orders);
        }
    }

    @Test
    void rmsAndAmplitudeAreThoseOfTheSeries() {
        TurnVoltage turn = TurnVoltage.of(new double[] {3, 0}, new double[] {4, 2});
        assertEquals(5, turn.amplitude(1), 1e-12);
        assertEquals(Math.sqrt((25 + 4) / 2.0), turn.rms(), 1e-12);
    }

    @Test
    void aTurnIsLearntThoughTheSpeedChangesAndNoiseIsInIt() {
        TurnVoltage truth = made(40, 3);
        TurnAverage first = new TurnAverage(40);
        TurnAverage second = new TurnAverage(40);
        Random noise = new Random(11);
        double angle = 0;
        double step = 1 / 9600.0;
        for (int i = 0; i < 200_000; i++) {
            double speed = 50 + 20 * Math.sin(0.0003 * i);
            (i < 90_000 ? first : second).add(angle, speed * truth.value(angle) + noise.nextGaussian(), speed);
            angle += speed * step;
        }
        first.add(second);
        TurnVoltage learnt = first.turn().orElseThrow();
        for (int k = 1; k <= 40; k++) {
            // one sample's noise of 1 V at 50 rad/s is 0.02; over 200,000 samples sqrt(2/200,000) of it
            double tolerance = 6 * 0.02 * Math.sqrt(2 / 200_000.0) + 2e-3;
            assertEquals(truth.cosine(k), learnt.cosine(k), tolerance, "cosine " + k);
            assertEquals(truth.sine(k), learnt.sine(k), tolerance, "sine " + k);
        }
    }

    @Test
    void aTurnOfWhichFewAnglesWereSeenIsFittedAndTooFewGiveNone() {
        TurnVoltage truth = TurnVoltage.of(new double[] {0, 0, 1}, new double[] {0, 0, 0.5});
        TurnAverage locked = new TurnAverage(3);
        TurnAverage part = new TurnAverage(3);
        for (int i = 0; i < 5000; i++) {
            double angle = i * 2 * Math.PI / 90;
            locked.add(angle + 0.001, 10 * truth.value(angle + 0.001), 10);
            part.add(i % 6, 10 * truth.value(i % 6), 10);
        }
        TurnVoltage learnt = locked.turn().orElseThrow();
        assertEquals(1, learnt.cosine(3), 1e-6);
        assertEquals(0.5, learnt.sine(3), 1e-6);
        assertTrue(part.turn().isEmpty());
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> TurnVoltage.of(new double[0], new double[0]));
        assertThrows(IllegalArgumentException.class, () -> TurnVoltage.of(new double[2], new double[1]));
        assertThrows(IllegalArgumentException.class, () -> TurnVoltage.of(new double[] {Double.NaN}, new double[1]));
        assertThrows(IllegalArgumentException.class, () -> new TurnAverage(0));
        TurnAverage three = new TurnAverage(3);
        assertThrows(IllegalArgumentException.class, () -> three.add(new TurnAverage(4)));
    }
}
