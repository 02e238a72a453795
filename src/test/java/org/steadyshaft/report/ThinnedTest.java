package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.jfree.data.xy.XYSeries;
import org.junit.jupiter.api.Test;

/** Lines with fewer points than were given. */
class ThinnedTest {
    private static double needle(int i) {
        return i == 7_321 ? 5 : i == 2_222 ? -5 : Math.sin(0.01 * i);
    }

    @Test
    void needlesStayAndPointsAreInOrder() {
        XYSeries line = new Thinned(100).line("a", 10_000, i -> i, ThinnedTest::needle);
        assertEquals(200, line.getItemCount());
        assertEquals(5, line.getMaxY());
        assertEquals(-5, line.getMinY());
        for (int i = 1; i < line.getItemCount(); i++) {
            assertTrue(line.getX(i).doubleValue() >= line.getX(i - 1).doubleValue(), "point " + i);
        }
    }

    @Test
    void fewPointsAllStay() {
        XYSeries line = new Thinned(100).line("a", 200, i -> i, ThinnedTest::needle);
        assertEquals(200, line.getItemCount());
        assertEquals(needle(123), line.getY(123).doubleValue());
    }

    @Test
    void peaksOfGroups() {
        XYSeries line = new Thinned(100).peaks("a", 10_050, i -> i, ThinnedTest::needle);
        assertEquals(100, line.getItemCount());
        assertEquals(5, line.getMaxY());
        assertTrue(line.getMinY() > -1.001, "a dip is no peak");
        assertEquals(3, new Thinned(100).peaks("a", 3, i -> i, i -> i).getItemCount());
        assertEquals(0, new Thinned(100).peaks("a", 0, i -> i, i -> i).getItemCount());
    }

    @Test
    void noGroupIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Thinned(0));
    }
}
