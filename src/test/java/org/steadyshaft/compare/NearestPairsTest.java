package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class NearestPairsTest {
    private static List<NearestPairs.Pair<Double>> pairs(List<Double> firsts, List<Double> seconds) {
        return NearestPairs.of(firsts, seconds, rpm -> rpm);
    }

    /** Two speeds on either side of what was an edge of bands. */
    @Test
    void nearly_equal_speeds_are_paired() {
        assertEquals(List.of(new NearestPairs.Pair<>(560.0, 564.0)), pairs(List.of(560.0), List.of(564.0)));
    }

    @Test
    void each_goes_with_its_nearest_once() {
        // 610 is nearer to 600 than 620 is; what is left over is 640 to 620
        assertEquals(
                List.of(new NearestPairs.Pair<>(600.0, 610.0), new NearestPairs.Pair<>(640.0, 620.0)),
                pairs(List.of(640.0, 600.0), List.of(620.0, 610.0)));
    }

    @Test
    void far_apart_is_no_pair() {
        assertTrue(pairs(List.of(600.0), List.of(900.0, 500.0)).isEmpty());
        assertTrue(pairs(List.of(), List.of(900.0)).isEmpty());
    }
}
