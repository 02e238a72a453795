package org.steadyshaft.response;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;

/** Levels of many windows side by side are those of each alone. */
class SpeedGridTest {
    @ParameterizedTest
    @CsvSource({"300,5,0", "300,5,3", "300,5,4", "300,5,101", "7,1,30", "2,3,9"})
    void levels(int window, int stride, int count) {
        CycleTimes.Builder times = new CycleTimes.Builder().add(0);
        DoubleSeries.Builder rpm = new DoubleSeries.Builder();
        double seconds = 0;
        for (int i = 0; i < 3000; i++) {
            seconds += 0.004 + 0.001 * Math.sin(i);
            times.add(seconds);
            rpm.add(1000 + 50 * Math.sin(0.02 * i * i));
        }
        SpeedGrid grid =
                SpeedGrid.of(new SpeedTrack(times.build(), rpm.build())).get(0);
        double[] levels = grid.levels(window, stride, count);
        assertEquals(count, levels.length);
        for (int k = 0; k < count; k++) {
            assertEquals(grid.level(k * stride, k * stride + window), levels[k], "window " + k);
        }
    }
}
