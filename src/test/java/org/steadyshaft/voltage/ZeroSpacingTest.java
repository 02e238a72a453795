package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.DoubleSeries;

class ZeroSpacingTest {
    /** sin(2 a) + e sin(a): zeros at 0, pi, and where cos a = -e / 2; two of them rise. */
    @Test
    void ofTwoPolePairs() {
        double e = 0.2;
        TurnVoltage turn = TurnVoltage.of(new double[2], new double[] {e, 1});
        DoubleSeries percent = ZeroSpacing.percent(turn, 2).orElseThrow();
        // rising zeros at 0 and at pi: slopes 2 + e and 2 - e, both above 0
        assertEquals(2, percent.size());
        assertEquals(0, percent.get(0), 1e-6);
        assertEquals(0, percent.get(1), 1e-6);
    }

    /** sin(2 a) + e (1 - cos ...) shifted: with e cos(a) the rising zeros move by about -e / 2 and +e / 2. */
    @Test
    void unevenByACosine() {
        double e = 0.02;
        TurnVoltage turn = TurnVoltage.of(new double[] {e, 0}, new double[] {0, 1});
        DoubleSeries percent = ZeroSpacing.percent(turn, 2).orElseThrow();
        // zeros at -e / 2 and pi + e / 2: one pitch is larger by e, in units of pi
        assertEquals(100 * e / Math.PI, Math.abs(percent.get(0)), 1e-4);
        assertEquals(0, percent.get(0) + percent.get(1), 1e-9);
    }

    @Test
    void aMissingPoleHasNone() {
        assertTrue(ZeroSpacing.percent(TurnVoltage.of(new double[2], new double[] {3, 1}), 2)
                .isEmpty());
    }
}
