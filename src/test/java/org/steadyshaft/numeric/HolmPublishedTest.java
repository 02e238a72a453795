package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/**
 * Holm's correction of fifteen comparisons of a medical trial.
 *
 * <p>Source: Y. Benjamini, Y. Hochberg, Controlling the false discovery rate, J. R. Stat. Soc. B 57 (1995) 289-300, section 4.1: the
 * p-values, and that the procedures which hold the chance of any false alarm at 0.05 reject the three smallest; from memory. The
 * corrected values of the first five are worked by hand: p times 15, 14, 13, 12, 11.
 */
class HolmPublishedTest {
    private static final double[] P = {
        0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590,
        1.0000
    };

    @Test
    void threeOfFifteenAreRejected() {
        double[] adjusted = HolmCorrection.adjusted(P);
        assertEquals(3, Arrays.stream(adjusted).filter(p -> p <= 0.05).count());
        double[] byHand = {0.0015, 0.0056, 0.0247, 0.114, 0.2211};
        for (int i = 0; i < byHand.length; i++) {
            assertEquals(byHand[i], adjusted[i], 1e-12, "number " + i);
        }
    }
}
