package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.steadyshaft.capture.TextFiles.RATE_HZ;
import static org.steadyshaft.capture.TextFiles.ROWS;
import static org.steadyshaft.capture.TextFiles.commas;
import static org.steadyshaft.capture.TextFiles.fixed;
import static org.steadyshaft.capture.TextFiles.pair;
import static org.steadyshaft.capture.TextFiles.table;
import static org.steadyshaft.capture.TextFiles.volts;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/** How a table is laid out: separators, marks, names, units, columns, characters. */
class TextSourceTest {
    @TempDir
    private Path folder;

    /** The known wave at its rate in the given channel. */
    private static void assertWave(SampleSource source, int channel) throws IOException {
        assertEquals(RATE_HZ, source.sampleRateHz(), 1e-6 * RATE_HZ);
        assertEquals(ROWS, source.samples());
        double[] samples = ReadBack.channel(source, channel);
        assertEquals(ROWS, samples.length);
        for (int i = 0; i < ROWS; i++) {
            assertEquals(volts(i), samples[i], 1e-9, "sample " + i);
        }
    }

    private static void assertWave(SampleSource source) throws IOException {
        assertEquals(1, source.channels());
        assertWave(source, 0);
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(strings = {",", ";", "\t", " ", "   ", " \t ", ", ", " ; "})
    void separators(String separator) throws IOException {
        assertWave(TextFiles.open(folder, table("Time" + separator + "Tacho\n", i -> pair(i, separator))));
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(strings = {";", "\t", " ", "; "})
    void decimal_commas(String separator) throws IOException {
        TextSource source =
                TextFiles.open(folder, table("Time" + separator + "Tacho\n", i -> commas(pair(i, separator))));

        assertWave(source);
        assertTrue(
                source.format().encoding().endsWith(", decimal comma"),
                source.format().encoding());
    }

    @Test
    void quoted_cells() throws IOException {
        assertWave(TextFiles.open(folder, table("\"Time\",\"Tacho\"\n", i -> '"' + pair(i, "\",\"") + '"')));
    }

    @Test
    void quoted_decimal_commas_between_commas() throws IOException {
        assertWave(TextFiles.open(
                folder,
                table(
                        "\"Time\",\"Tacho\"\n",
                        i -> '"' + commas(pair(i, "\"|\"")).replace('|', ',') + '"')));
    }

    @Test
    void a_separator_at_the_end_of_each_line() throws IOException {
        assertWave(TextFiles.open(folder, table("Time,Tacho,\n", i -> pair(i, ",") + ",")));
    }

    @Test
    void no_header_at_all() throws IOException {
        TextSource source = TextFiles.open(folder, table("", i -> pair(i, ",")));

        assertWave(source);
        assertEquals("2", source.channelName(0));
    }

    @Test
    void a_preamble_of_keys_and_values() throws IOException {
        String above = "Model,nameless\nRecord Length,600\nVertical Scale,2.00e-01\nProbe,10\n\nTime,Tacho\n";
        TextSource source = TextFiles.open(folder, table(above, i -> pair(i, ",")));

        assertWave(source);
        assertEquals("Tacho", source.channelName(0));
    }

    @Test
    void a_preamble_with_comment_marks() throws IOException {
        TextSource source =
                TextFiles.open(folder, table("# taken in the workshop\n# Time, Tacho\n", i -> pair(i, ", ")));

        assertWave(source);
        assertEquals("Tacho", source.channelName(0));
    }

    /** A layout in which keys, values and units stand in columns beside the first rows of numbers. */
    @Test
    void a_preamble_in_columns_beside_the_table() throws IOException {
        String[] beside = {"Record Length,600,Points,", "Sample Interval,2.5e-4,s,", "Probe Atten,10,,"};
        TextSource source =
                TextFiles.open(folder, table("", i -> (i < beside.length ? beside[i] : ",,,") + pair(i, ",")));

        // the rows beside the preamble may be left out, their text is no number
        assertEquals(1, source.channels());
        assertEquals(RATE_HZ, source.sampleRateHz(), 1e-3);
        double[] samples = ReadBack.channel(source, 0);
        int missing = ROWS - samples.length;
        assertTrue(missing == 0 || missing == beside.length, missing + " rows missing");
        assertEquals(volts(missing), samples[0]);
    }

    @Test
    void a_row_of_units_below_the_names() throws IOException {
        TextSource source = TextFiles.open(
                folder,
                table("Time,Channel A\n(ms),(mV)\n\n", i -> fixed(i * 0.25, 4) + "," + fixed(1000 * volts(i), 1)));

        assertWave(source);
        assertEquals("Channel A", source.channelName(0));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "Time (ms)|Tacho (mV)",
                "Time [ms]|Tacho [mV]",
                "Zeit in ms|U in mV",
                "t/ms|u/mV",
                "t: ms|u: mV",
                "MS|MV",
                "(ms)|(mV)",
                "Sample time (ms)|Tacho (mV)"
            })
    void units_in_the_names(String time, String volts) throws IOException {
        for (String separator : List.of(",", ";", "\t")) {
            assertWave(TextFiles.open(
                    folder,
                    table(
                            time + separator + volts + "\n",
                            i -> fixed(i * 0.25, 4) + separator + fixed(1000 * volts(i), 1))));
        }
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"t(ms)  u(mV)", "Time (ms)  Tacho (mV)", "Time [ms]\tTacho [mV]"})
    void units_in_names_of_a_table_set_with_blanks(String names) throws IOException {
        assertWave(TextFiles.open(
                folder, table(names + "\n", i -> "  " + fixed(i * 0.25, 4) + "   " + fixed(1000 * volts(i), 1))));
    }

    @Test
    void microseconds_in_every_spelling() throws IOException {
        for (String micro : List.of("us", "\u00B5s", "\u03BCs")) {
            assertWave(TextFiles.open(
                    folder, table("Time (" + micro + "),Tacho (V)\n", i -> 250 * i + "," + fixed(volts(i), 3))));
        }
    }

    @Test
    void the_time_need_not_come_first() throws IOException {
        TextSource source = TextFiles.open(
                folder,
                table(
                        "Tacho (V),Time (s),Mains (V)\n",
                        i -> fixed(volts(i), 3) + "," + fixed(i / (double) RATE_HZ, 6) + "," + i % 3));

        assertEquals(List.of("Tacho (V)", "Mains (V)"), List.of(source.channelName(0), source.channelName(1)));
        assertWave(source, 0);
        assertEquals(2, ReadBack.channel(source, 1)[5]);
    }

    /** A slow wave only rises within the first lines that are looked at; its column is still no time. */
    @Test
    void a_rising_voltage_before_the_time_is_not_taken_for_it() throws IOException {
        TextSource source = TextFiles.open(
                folder,
                table("Tacho (V),Time (s)\n", i -> fixed(3 * Math.sin(i / 300.0), 4) + "," + fixed(i / 100_000.0, 6)));

        assertEquals(100_000, source.sampleRateHz(), 1);
        assertEquals(3 * Math.sin(599 / 300.0), ReadBack.channel(source, 0)[599], 1e-4);
    }

    @Test
    void a_rising_voltage_beside_another_is_not_taken_for_times() throws IOException {
        TextSource source = TextFiles.open(
                folder,
                table(
                        "Sample rate: 100 kHz\nTacho (V),Mains (V)\n",
                        i -> fixed(3 * Math.sin(i / 300.0), 4) + "," + fixed(volts(i), 3)));

        assertEquals(2, source.channels());
        assertEquals(100_000, source.sampleRateHz(), 1);
    }

    @Test
    void several_channels() throws IOException {
        TextSource source = TextFiles.open(
                folder, table("Time;CH1 (V);CH2 (mV)\n", i -> pair(i, ";") + ";" + fixed(500 * volts(i), 1)));

        assertEquals(2, source.channels());
        assertWave(source, 0);
        assertEquals(volts(3) / 2, ReadBack.channel(source, 1)[3], 1e-12);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 599, 600, 5000})
    void blocks_of_any_size_and_a_second_reading_give_the_same(int blockSamples) throws IOException {
        TextSource source = TextFiles.open(folder, table("Time,Tacho\n", i -> pair(i, ",")));

        assertArrayEquals(ReadBack.all(source, 100), ReadBack.all(source, blockSamples));
    }

    @Test
    void packed_text() throws IOException {
        Path file = folder.resolve("run7.csv.gz");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
            out.write(table("Time,Tacho\n", i -> pair(i, ",")).getBytes(StandardCharsets.UTF_8));
        }
        assertWave(TextFiles.open(file));
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16LE", "UTF-16BE"})
    void byte_order_marks(String charset) throws IOException {
        String text = table("\uFEFFTime (\u00B5s),Tacho\n", i -> 250 * i + "," + fixed(volts(i), 3));
        TextSource source = TextFiles.open(TextFiles.file(folder, text, Charset.forName(charset)));

        assertWave(source);
        assertEquals("Tacho", source.channelName(0));
    }

    @Test
    void a_micro_sign_in_latin_one() throws IOException {
        String text = table("Time (\u00B5s),Tacho\n", i -> 250 * i + "," + fixed(volts(i), 3));
        assertWave(TextFiles.open(TextFiles.file(folder, text, StandardCharsets.ISO_8859_1)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r", "\r\r\n"})
    void line_ends(String end) throws IOException {
        assertWave(TextFiles.open(
                folder, table("Time,Tacho\n", i -> pair(i, ",")).replace("\n", end)));
    }

    @Test
    void a_single_column_of_decimal_commas() throws IOException {
        String text = table("", i -> commas(fixed(volts(i), 3)));
        assertWave(TextFiles.open(folder, text, RATE_HZ));
    }

    @Test
    void a_single_column_of_decimal_points() throws IOException {
        assertWave(TextFiles.open(folder, table("Tacho (V)\n", i -> fixed(volts(i), 3)), RATE_HZ));
    }

    @Test
    void exponents_and_signs() throws IOException {
        assertWave(TextFiles.open(
                folder, table("Time,Tacho\n", i -> "+" + 2.5 * i + "E-04," + fixed(1000 * volts(i), 0) + "e-3")));
    }

    /** Short text is kept and opens anywhere; long text is read again up to the place. */
    @Test
    void any_sample_can_be_opened() throws IOException {
        for (int channels : new int[] {1, 40}) {
            int rows = channels == 1 ? 5000 : 60_000;
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < rows; i++) {
                text.append(fixed(i / 4000.0, 5))
                        .append((";" + i % 97).repeat(channels))
                        .append('\n');
            }
            TextSource source = TextFiles.open(TextFiles.file(folder, text.toString(), StandardCharsets.UTF_8));
            assertEquals(channels == 1, source.opensAnywhere());
            for (int at : new int[] {0, 1, 4321, rows - 1, rows, rows + 9}) {
                try (BlockReader reader = source.openAt(at)) {
                    double[][] block = new double[channels][3];
                    int count = reader.read(block);
                    assertEquals(Math.max(0, Math.min(3, rows - at)), count, "at " + at);
                    for (int i = 0; i < count; i++) {
                        assertEquals((at + i) % 97, block[channels - 1][i]);
                    }
                }
            }
        }
    }
}
