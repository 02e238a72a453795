package org.steadyshaft.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RatePlanTest {
    private static final long LONG = 10_000_000;

    @ParameterizedTest
    @CsvSource({
        "96000, 200, 16",
        "96000, 30, 64",
        "48000, 200, 8",
        "44100, 80, 16",
        "192000, 20, 64",
        "48000, 1000, 2",
        "48000, 3000, 1",
        "8000, 40, 4",
        "8000, 900, 1"
    })
    void theRateIsAsLowAsTheTachoAllows(double rateHz, double tachoHz, int factor) {
        assertEquals(factor, RatePlan.of(rateHz, LONG, tachoHz).factor());
    }

    @Test
    void whateverTheTachoItsHarmonicsAndSomeTensOfSamplesAPeriodAreThere() {
        for (double rate : new double[] {8000, 22050, 44100, 48000, 96000, 192000, 1e6}) {
            for (double hz = 3; hz < 7000; hz *= 1.3) {
                RatePlan plan = RatePlan.of(rate, LONG, hz);
                boolean full = plan.factor() == 1;
                assertTrue(full || plan.cleanHz(rate) >= 4 * hz + 300, hz + " Hz at " + rate);
                assertTrue(full || rate / plan.factor() >= 24 * hz, hz + " Hz at " + rate);
            }
        }
    }

    @Test
    void aShortRecordingIsLeftAsItIs() {
        assertEquals(1, RatePlan.of(96000, 30000, 50).factor());
    }

    @Test
    void refusesOtherFactors() {
        assertThrows(IllegalArgumentException.class, () -> new RatePlan(3, 1));
        assertThrows(IllegalArgumentException.class, () -> new RatePlan(4, 2));
        assertThrows(IllegalArgumentException.class, () -> new RatePlan(8, 16));
    }
}
