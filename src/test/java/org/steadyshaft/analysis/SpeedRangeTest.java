package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.Finding;

class SpeedRangeTest {
    @ParameterizedTest
    @CsvSource({"0.2, true", "0.99, true", "1, false", "900, false", "60000, false", "60001, true", "4e6, true"})
    void speeds_that_cannot_be_are_asked_about(double rpm, boolean asked) {
        assertEquals(asked, SpeedRange.doubt(rpm, 8).isPresent());
        SpeedRange.doubt(rpm, 8).map(Finding::text).ifPresent(t -> assertTrue(t.contains("unit of the times"), t));
    }
}
