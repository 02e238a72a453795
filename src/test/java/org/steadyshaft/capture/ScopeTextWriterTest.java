package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

class ScopeTextWriterTest {
    private static final int STEPS = 250;

    @TempDir
    private Path folder;

    private SampleSource written(double rangeVolts, SampleSource source) throws IOException {
        Path file = folder.resolve("out.csv");
        new ScopeTextWriter(rangeVolts).write(source, file);
        return Recordings.open(file, "out.csv", ReadOptions.NONE);
    }

    /** A tacho of this peak, 2 s or 0.02 s at high rates. */
    private static SampleSource tacho(double peak, double rateHz) {
        double seconds = rateHz > 20_000 ? 0.02 : 2;
        return new DrawnTacho(
                "drawn", DrawnSpeed.level(1000), Settings.clean(rateHz, seconds).withShape(peak, 0.02, 0.05));
    }

    @ParameterizedTest(name = "screen of {0} V")
    @ValueSource(doubles = {25, 10, 2.5, 0.25, 0.1})
    void what_was_written_is_read_back_within_half_a_step(double rangeVolts) throws IOException {
        SampleSource source = tacho(0.4 * rangeVolts, 8000);
        SampleSource back = written(rangeVolts, source);

        assertEquals(source.samples(), back.samples());
        assertEquals("tacho (V)", back.channelName(0));
        double[] expected = ReadBack.channel(source, 0);
        double[] samples = ReadBack.channel(back, 0);
        for (int i = 0; i < samples.length; i++) {
            assertEquals(expected[i], samples[i], 0.501 * rangeVolts / STEPS, "sample " + i);
        }
    }

    /** Times have 5 decimals: the rate is fitted over the column. */
    @ParameterizedTest(name = "{0} Hz")
    @CsvSource({"8000, 1", "44100, 100", "1000000, 100"})
    void the_rate_is_read_back(double rateHz, double partsPerMillion) throws IOException {
        SampleSource back = written(10, tacho(4, rateHz));

        assertEquals(rateHz, back.sampleRateHz(), rateHz * partsPerMillion * 1e-6);
    }

    @Test
    void what_is_beyond_the_screen_is_clipped() throws IOException {
        double[] samples = ReadBack.channel(written(5, tacho(8, 8000)), 0);

        assertEquals(2.5, Arrays.stream(samples).max().orElseThrow(), 1e-9);
        assertEquals(-2.5, Arrays.stream(samples).min().orElseThrow(), 1e-9);
        assertTrue(Arrays.stream(samples).filter(v -> v == 2.5).count() > 1000);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN})
    void a_range_that_is_none_is_refused(double range) {
        assertThrows(IllegalArgumentException.class, () -> new ScopeTextWriter(range));
    }
}
