package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * The high-pass of one capacitor and one resistor passes 1 / sqrt(2) at its corner, turned ahead by 45 degrees, and 1 far above (handbooks of
 * circuits); what a line's angle and level do to the two sidebands of a carrier is the sum and the difference of them (handbooks of
 * modulation).
 */
class LineResponseTest {
    private static final double CORNER = 20;

    @Test
    void theLowerSidebandAtTheCornerIsShrunkAndTurned() {
        LineResponse coupled = new LineResponse.Coupled(CORNER, 1e5, new double[] {1});
        double hz = 1e5 - CORNER;
        double ratio = hz / 1e5;
        // upper and lower as they were put together; so high a carrier passes as it is
        Complex upper = coupled.angle(hz).add(coupled.level(hz).multiply(ratio)).divide(1 + ratio);
        Complex lower =
                coupled.angle(hz).subtract(coupled.level(hz).multiply(ratio)).divide(1 - ratio);
        assertEquals(1, upper.norm(), 1e-6);
        assertEquals(1 / Math.sqrt(2), lower.norm(), 1e-6);
        // mirrored
        assertEquals(-Math.PI / 4, lower.getArgument(), 1e-3);
    }

    @Test
    void farAboveTheCornerNothingIsBent() {
        LineResponse coupled = new LineResponse.Coupled(CORNER, 5000, new double[] {1, 0.01});
        assertEquals(1, coupled.angle(100).norm(), 1e-3);
        assertEquals(1, coupled.level(100).norm(), 1e-3);
    }

    @Test
    void withoutACapacitorAllIsTrue() {
        LineResponse coupled = new LineResponse.Coupled(0, 47, new double[] {1, 0.3, 0.1});
        for (double hz : new double[] {10, 46, 48, 100, 300}) {
            assertEquals(0, coupled.angle(hz).subtract(1).norm(), 1e-12);
            assertEquals(0, coupled.level(hz).subtract(1).norm(), 1e-12);
        }
    }
}
