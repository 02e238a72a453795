package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;

class SpanWordsTest {
    /** Ten cycles a second from 1 s on, at 600 rpm. */
    private static SpeedTrack track(int cycles) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        IntStream.rangeClosed(0, cycles).forEach(i -> times.add(1 + 0.1 * i));
        return new SpeedTrack(
                times.build(),
                DoubleSeries.of(IntStream.range(0, cycles).mapToDouble(i -> 600).toArray()));
    }

    @Test
    void the_mean_is_that_of_the_time_that_was_counted() {
        assertEquals(
                "100 in 10.00 s, between 1.00 s and 11.00 s; the mean is that of this time",
                SpanWords.counted(track(100), 10.1));
    }

    @Test
    void the_whole_recording_is_told_where_it_differs() {
        assertEquals(
                "100 in 10.00 s, between 1.00 s and 11.00 s; the mean is that of this time. The whole recording of 20.00 s shows"
                        + " 100.0 turns, 300.0 rpm if nothing turned in the rest",
                SpanWords.counted(track(100), 20));
    }
}
