package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class MainsTest {
    private static final Mains UNREST =
            new Mains(230, 50, new Mains.Unrest(5, 7, 1, 2), List.of(new Mains.Step(3, -10), new Mains.Step(6, 10)));

    @Test
    void everyHalfCycleBeginsAtAZeroAndIsCountedOnce() {
        for (long n = 0; n < 2000; n++) {
            double start = UNREST.startSeconds(n);
            assertEquals(0, UNREST.voltage(start), 1e-5, "half-cycle " + n);
            assertEquals(n, UNREST.halfCycle(start));
            assertEquals(n, UNREST.halfCycle(UNREST.startSeconds(n + 1) - 1e-6));
            assertEquals(n % 2 == 0 ? 1 : -1, UNREST.polarity(start + 1e-3));
        }
    }

    @Test
    void theFrequencyWandersByWhatIsSaid() {
        double shortest = Double.POSITIVE_INFINITY;
        double longest = 0;
        for (long n = 0; n < 700; n++) {
            double length = UNREST.startSeconds(n + 1) - UNREST.startSeconds(n);
            shortest = Math.min(shortest, length);
            longest = Math.max(longest, length);
        }
        assertEquals(0.01 / 1.05, shortest, 1e-5);
        assertEquals(0.01 / 0.95, longest, 1e-5);
    }

    @Test
    void theVoltageStepsAndFlickers() {
        double[] peak = new double[9];
        for (double t = 0; t < 9; t += 1e-4) {
            peak[(int) t] = Math.max(peak[(int) t], Math.abs(UNREST.voltage(t)));
        }
        double nominal = 230 * Math.sqrt(2);
        assertEquals(1.01, peak[1] / nominal, 1e-3);
        assertEquals(0.91, peak[4] / nominal, 1e-3);
        assertEquals(1.01, peak[7] / nominal, 1e-3);
        assertEquals(3, UNREST.nextStepSeconds(0));
        assertEquals(6, UNREST.nextStepSeconds(3));
        assertTrue(Double.isInfinite(UNREST.nextStepSeconds(6)));
    }
}
