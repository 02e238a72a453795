package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.steadyshaft.capture.TextFiles.ROWS;
import static org.steadyshaft.capture.TextFiles.fixed;
import static org.steadyshaft.capture.TextFiles.table;
import static org.steadyshaft.capture.TextFiles.volts;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Where the sampling rate of a text export comes from. */
class TextTimeBaseTest {
    @TempDir
    private Path folder;

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "Sample Interval,2.0e-5|50000",
                "Sample Interval,2.0e-5,s|50000",
                "Sample Interval: 20.00uS|50000",
                "Sample Interval,20,us|50000",
                "Sample interval (us),20|50000",
                "Horizontal increment = 20 \u00B5s|50000",
                "dt = 0.02 ms|50000",
                "interval = 0,02 ms|50000",
                "Sampling Period;20 us|50000",
                "rate = 50 kHz|50000",
                "Sampling Rate,50,kHz|50000",
                "Sampling rate [kHz]: 50|50000",
                "# Sample Rate: 50kSa/s|50000",
                "Sample Rate: 50.0kS/s|50000",
                "Sampling frequency: 44100 Hz|44100",
                "SampleRate=48000|48000",
                "fs: 8 kHz|8000"
            })
    void a_line_above_the_numbers_tells_it(String line, double rateHz) throws IOException {
        TextSource source = TextFiles.open(folder, table(line + "\nTacho (V)\n", i -> fixed(volts(i), 3)));

        assertEquals(rateHz, source.sampleRateHz(), 1e-9 * rateHz);
        assertEquals(ROWS, source.samples());
        assertEquals(volts(5), ReadBack.channel(source, 0)[5]);
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"Vertical delta,0.02", "Baud rate,115200", "Delta V: 0.5"})
    void other_deltas_and_rates_are_no_time_base(String line) {
        CaptureException refused = assertThrows(
                CaptureException.class,
                () -> TextFiles.open(folder, table(line + "\nTacho (V)\n", i -> fixed(volts(i), 3))));
        assertTrue(refused.getMessage().contains("--sample-rate"), refused.getMessage());
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(strings = {"Index,Tacho\n", "Sample no,Tacho (V)\n", "n,Tacho\n", "X,Tacho\n", ""})
    void a_column_that_counts_gives_no_time(String names) throws IOException {
        String text = table(names, i -> i + "," + fixed(volts(i), 3));

        CaptureException refused = assertThrows(CaptureException.class, () -> TextFiles.open(folder, text));
        assertTrue(
                refused.getMessage().startsWith("run7.csv:" + (names.isEmpty() ? 1 : 2) + ": "), refused.getMessage());
        assertTrue(refused.getMessage().contains("--sample-rate"), refused.getMessage());

        TextSource source = TextFiles.open(folder, text, 8000);
        assertEquals(8000, source.sampleRateHz());
        assertEquals(1, source.channels());
        assertEquals(volts(7), ReadBack.channel(source, 0)[7]);
    }

    @Test
    void a_count_with_an_interval_above_it_is_enough() throws IOException {
        TextSource source = TextFiles.open(
                folder, table("Sample Interval,2.5e-4\nIndex,Tacho\n", i -> i + "," + fixed(volts(i), 3)));

        assertEquals(4000, source.sampleRateHz(), 1e-6);
        assertEquals(1, source.channels());
    }

    @Test
    void voltages_alone_ask_for_the_rate() {
        CaptureException refused = assertThrows(
                CaptureException.class, () -> TextFiles.open(folder, table("Tacho (V)\n", i -> fixed(volts(i), 3))));
        assertEquals(
                "run7.csv:2: found voltages but no times, interval or sample rate; give the rate of the recording"
                        + " with --sample-rate",
                refused.getMessage());
    }

    /** Stamps of 5 decimals at 44.1 kHz: steps of 20 and 30 us, in the mean exact. */
    @Test
    void rounded_stamps_are_fitted_over_the_whole_column() throws IOException {
        TextSource source = TextFiles.open(
                folder, table("Time (s),Tacho (V)\n", i -> fixed(i / 44100.0, 5) + "," + fixed(volts(i), 3)));

        // rounding of 1e-5 / sqrt(12) over n rows: slope error of sqrt(12) * that / n^1.5, here 30 ppm; 4 of it
        assertEquals(44100, source.sampleRateHz(), 44100 * 120e-6);
        assertEquals(List.of(), source.remarks());
    }

    @Test
    void repeated_stamps_are_fitted_over_the_whole_column() throws IOException {
        TextSource source = TextFiles.open(
                folder, table("Time (s),Tacho (V)\n", i -> fixed(i / 8000.0, 3) + "," + fixed(volts(i), 3)));

        // 8 equal stamps in a row: error 1e-3 s over 0.075 s at most, much less when fitted
        assertEquals(8000, source.sampleRateHz(), 8000 * 2e-3);
        assertEquals(ROWS, source.samples());
        // 76 different stamps: 76^-1.5 = 0.15 %, twice that is told
        assertEquals(1, source.remarks().size());
        assertTrue(
                source.remarks().get(0).contains("about 0.30 % only"),
                source.remarks().get(0));
    }

    @Test
    void jitter_and_a_far_start_do_not_hurt() throws IOException {
        Random random = new Random(41);
        TextSource source = TextFiles.open(
                folder,
                table(
                        "Time (s),Tacho (V)\n",
                        i -> fixed(86_400 + i / 4000.0 + 2e-5 * random.nextDouble(), 6) + "," + fixed(volts(i), 3)));

        // jitter of 2e-5 / sqrt(12) s over 600 rows: 6 ppm; 4 of it
        assertEquals(4000, source.sampleRateHz(), 4000 * 25e-6);
    }

    @Test
    void times_before_the_trigger_are_negative() throws IOException {
        TextSource source = TextFiles.open(
                folder, table("Time (s),Tacho (V)\n", i -> fixed((i - 300) / 4000.0, 6) + "," + fixed(volts(i), 3)));

        assertEquals(4000, source.sampleRateHz(), 1e-3);
        assertEquals(volts(0), ReadBack.channel(source, 0)[0]);
    }

    @Test
    void a_hole_in_the_stamps_is_remarked() throws IOException {
        TextSource source = TextFiles.open(
                folder,
                table(
                        "Time (s),Tacho (V)\n",
                        i -> fixed((i < 300 ? i : i + 100) / 4000.0, 6) + "," + fixed(volts(i), 3)));

        assertEquals(1, source.remarks().size());
        assertTrue(
                source.remarks().get(0).contains("0.02525 s"), source.remarks().get(0));
    }

    @Test
    void time_that_goes_back_is_shown_with_its_line() {
        String text = table(
                "Time (ms),Tacho (V)\n", i -> fixed((i < 500 ? i : i - 400) * 0.25, 2) + "," + fixed(volts(i), 3));

        CaptureException refused = assertThrows(CaptureException.class, () -> TextFiles.open(folder, text));

        assertEquals(
                "run7.csv:502: time goes back from 0.124750000 s to 0.0250000000 s; expected increasing times",
                refused.getMessage());
    }

    @Test
    void a_time_that_stands_still_is_no_time_base() {
        String text = table("Time (s),Tacho (V)\n", i -> "0.5," + fixed(volts(i), 3));

        CaptureException refused = assertThrows(CaptureException.class, () -> TextFiles.open(folder, text));

        assertTrue(refused.getMessage().contains("--sample-rate"), refused.getMessage());
    }

    @Test
    void a_given_rate_does_not_override_times() throws IOException {
        TextSource source = TextFiles.open(folder, table("Time (s),Tacho (V)\n", i -> TextFiles.pair(i, ",")), 8000);

        assertEquals(4000, source.sampleRateHz(), 1e-3);
    }
}
