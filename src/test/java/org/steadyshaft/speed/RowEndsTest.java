package org.steadyshaft.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.CycleTimes;

/** The last cycle before a lead opens is nobody's; a shaft that slows down keeps all of its cycles. */
class RowEndsTest {
    private static CycleTimes row(int cycles, double growth, double last) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        double at = 0;
        double length = 0.01;
        for (int i = 0; i <= cycles; i++) {
            times.add(at);
            length *= growth;
            at += i == cycles - 1 ? last * length : length;
        }
        return times.build();
    }

    @Test
    void anOddEndIsCut() {
        assertEquals(30, RowEnds.trimmed(row(30, 1, 1)).cycles());
        assertEquals(29, RowEnds.trimmed(row(30, 1, 1.5)).cycles());
        assertEquals(29, RowEnds.trimmed(row(30, 1, 0.6)).cycles());
    }

    @Test
    void aShaftThatSlowsDownKeepsItsCycles() {
        assertEquals(30, RowEnds.trimmed(row(30, 1.1, 1)).cycles());
    }

    @Test
    void aShortRowIsLeft() {
        assertEquals(8, RowEnds.trimmed(row(8, 1, 1.5)).cycles());
    }
}
