package org.steadyshaft.blip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Two slow kinks of which the second goes on where the first has risen are one gradual change. */
class GradualChangesTest {
    @Test
    void aSecondThatGoesOnWhereTheFirstHasRisenIsTheSameChange() {
        Kink first = new Kink(2, -1.4, 0.033, 0.5);
        Kink second = new Kink(2.033, -0.7, 0.043, 0.5);
        List<Kink> joined = GradualChanges.joined(List.of(first, second, new Kink(5, 3, 0.01, 0.2)));
        assertEquals(2, joined.size());
        Kink one = joined.get(0);
        assertEquals(2, one.startSeconds());
        assertEquals(0.076, one.riseSeconds(), 1e-9);
        // what is left of the first when the second has risen, exponential return
        assertEquals(-0.7 - 1.4 * Math.exp(-0.043 / 0.5), one.percent(), 1e-9);
        assertTrue(GradualChanges.isOne(one));
        assertFalse(GradualChanges.isOne(joined.get(1)));
    }

    @Test
    void twoFiringsMissedInARowStayTwo() {
        List<Kink> fast = List.of(new Kink(2, -1.4, 0.01, 0.5), new Kink(2.02, -1.4, 0.01, 0.5));
        assertEquals(fast, GradualChanges.joined(fast));
        List<Kink> opposite = List.of(new Kink(2, -1.4, 0.03, 0.5), new Kink(2.03, 1.4, 0.03, 0.5));
        assertEquals(opposite, GradualChanges.joined(opposite));
    }
}
