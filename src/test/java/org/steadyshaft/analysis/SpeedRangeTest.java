package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.stability.AlarmFinder;

class SpeedRangeTest {
    @ParameterizedTest
    @CsvSource({"0.2, true", "0.99, true", "1, false", "900, false", "40000, false", "60001, true", "4e6, true"})
    void speeds_that_cannot_be_are_asked_about(double rpm, boolean asked) {
        assertEquals(asked, SpeedRange.doubt(rpm, 8).isPresent());
        SpeedRange.doubt(rpm, 8).map(Finding::text).ifPresent(t -> assertTrue(t.contains("unit of the times"), t));
    }

    /** Faster than motors of small tools run, at a frequency where converters whistle; with more poles the same tone is a usual speed. */
    @Test
    void a_whistle_is_asked_about() {
        String text = SpeedRange.doubt(54_000, 8).orElseThrow().text();
        assertTrue(text.contains("7200 Hz") && text.contains("whistle"), text);
        assertTrue(SpeedRange.doubt(7200, 60).isEmpty());
    }

    /** A row of cycles at one frequency that ends long before the recording does. */
    @ParameterizedTest
    @CsvSource({"14000, 4, true", "14000, 1.2, false", "5500, 4, false", "200, 4, false"})
    void a_tacho_that_leaves_the_reach_did_not_stop(double hz, double durationSeconds, boolean told) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        double[] speeds = new double[(int) hz];
        for (int i = 0; i <= speeds.length; i++) {
            times.add(i / hz);
        }
        Arrays.fill(speeds, 60 * hz / 8);
        SpeedTrack track = new SpeedTrack(times.build(), DoubleSeries.of(speeds));
        assertEquals(told, SpeedRange.left(track, durationSeconds).isPresent());
        boolean stopped = !new AlarmFinder(OptionalDouble.empty(), durationSeconds, s -> false)
                .find(track, List.of(), List.of())
                .isEmpty();
        assertEquals(!told && durationSeconds > 2, stopped);
    }
}
