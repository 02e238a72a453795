package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.steadyshaft.capture.TextFiles.RATE_HZ;
import static org.steadyshaft.capture.TextFiles.ROWS;
import static org.steadyshaft.capture.TextFiles.fixed;
import static org.steadyshaft.capture.TextFiles.volts;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.SampleSource;

/**
 * Layouts and units in a table: each is read right or refused by name. Sources: SI Brochure (9th edition) for second,
 * minute, hour and prefixes; ISO 8601-1:2019 for times of day with either decimal sign; spellings are common practice.
 */
class TextLayoutsTest {
    @TempDir
    private Path folder;

    /** One row: {s} {ms} {us} {ns} {min} {h} seconds in a unit, {clock} and {iso} a time of day, {i} its number, {v} {mv} the level. */
    private static String row(String template, int i) {
        double seconds = i / (double) RATE_HZ;
        // half a second before midnight, so that every clock passes it
        double ofDay = (86_399.95 + seconds) % 86_400;
        int whole = (int) Math.floor(ofDay + 1e-9);
        String clock = String.format(
                Locale.ROOT,
                "%02d:%02d:%02d%s",
                whole / 3600,
                whole / 60 % 60,
                whole % 60,
                fixed(Math.abs(ofDay - whole), 6).substring(1));
        return template.replace("{s}", fixed(seconds, 6))
                .replace("{ms}", fixed(1e3 * seconds, 3))
                .replace("{msc}", fixed(1e3 * seconds, 3).replace('.', ','))
                .replace("{us}", fixed(1e6 * seconds, 0))
                .replace("{ns}", fixed(1e9 * seconds, 0))
                .replace("{min}", fixed(seconds / 60, 9))
                .replace("{h}", fixed(seconds / 3600, 11))
                .replace("{clock}", clock)
                .replace("{comma}", clock.replace('.', ','))
                .replace("{iso}", (ofDay > 80_000 ? "2026-02-28T" : "2026-03-01T") + clock + "Z")
                .replace("{epoch}", fixed(1.7e9 + seconds, 6))
                .replace("{i}", Integer.toString(i))
                .replace("{v}", fixed(volts(i), 3))
                .replace("{vc}", fixed(volts(i), 3).replace('.', ','))
                .replace("{mv}", fixed(1e3 * volts(i), 1))
                .replace("{rpm}", fixed(900 + volts(i), 2));
    }

    private SampleSource open(String header, String template) throws IOException {
        StringBuilder text = new StringBuilder(
                header == null ? "" : header.replace("\\n", "\n").replace("\\t", "\t") + "\n");
        for (int i = 0; i < ROWS; i++) {
            text.append(row(template.replace("\\t", "\t"), i)).append('\n');
        }
        Path file = folder.resolve("layout.txt");
        Files.writeString(file, text, StandardCharsets.UTF_8);
        return Recordings.open(file, "layout.txt", ReadOptions.NONE);
    }

    @ParameterizedTest(name = "{0} / {1}")
    @CsvFileSource(resources = "text-layouts-read.psv", delimiter = '|', numLinesToSkip = 2, encoding = "UTF-8")
    void is_read_right(String header, String template, String channel, String unit) throws IOException {
        SampleSource source = open(header, template);

        assertEquals(RATE_HZ, source.sampleRateHz(), 2e-5 * RATE_HZ);
        assertEquals(1, source.channels(), "channels");
        assertEquals(channel, source.channelName(0));
        assertEquals(unit, source.format().unit());
        double[] samples = ReadBack.channel(source, 0);
        assertEquals(ROWS, samples.length);
        for (int i = 0; i < ROWS; i++) {
            assertEquals(volts(i), samples[i], 1e-9, "sample " + i);
        }
        assertTrue(source.remarks().isEmpty(), source.remarks().toString());
    }

    @ParameterizedTest(name = "{0} / {1}")
    @CsvFileSource(resources = "text-layouts-refused.psv", delimiter = '|', numLinesToSkip = 2, encoding = "UTF-8")
    void is_refused_by_name(String header, String template, String named) {
        String message = assertThrows(CaptureException.class, () -> open(header, template))
                .getMessage();

        assertTrue(message.startsWith("layout.txt:"), message);
        assertTrue(message.contains(named), message);
        assertTrue(message.contains("expected") || message.contains("give"), message);
    }

    @Test
    void more_columns_than_a_wav_has_channels_are_refused() {
        String message = assertThrows(CaptureException.class, () -> open("", "{s}" + ",{v}".repeat(64)))
                .getMessage();

        assertTrue(message.contains("65 columns; expected 1 to 64"), message);
    }

    @Test
    void a_rate_above_that_of_a_wav_is_refused() {
        String message = assertThrows(CaptureException.class, () -> open("Sample rate: 200 MHz\\nTacho (V)", "{v}"))
                .getMessage();

        assertTrue(message.contains("5.00e-09 s apart"), message);
    }

    @Test
    void names_are_cleaned() throws IOException {
        SampleSource source = open("Time (s),'Tacho  \u0007 one'", "{s},{v}");

        assertEquals("Tacho one", source.channelName(0));
        assertFalse(source.channelName(0).codePoints().anyMatch(Character::isISOControl));
    }

    /** Edges at every 0.4 and 0.6 of a period of 10 ms in turn; the length of the list tells the unit. */
    @ParameterizedTest(name = "{0}, levels {2} and {3}")
    @CsvSource(
            delimiter = '|',
            value = {
                "Time [s],Channel 0|1|0|1",
                "Time (ms),D0|1e3|0|1",
                "time_us,level|1e6|0|1",
                "micros,pin|1e6|0|1",
                "Timestamp (ns),D0|1e9|0|1",
                "Zeit/ms;Pegel|1e3|0|3.3",
                "Time (min),D0|0.016666666666666666|0|5",
                "Time,Channel 0|1|0|1",
                "''|1|-1|1"
            })
    void edges_in_any_unit(String header, double perSecond, String low, String high) throws IOException {
        String separator = header.contains(";") ? ";" : ",";
        StringBuilder text = new StringBuilder(header.isEmpty() ? "" : header + "\n");
        for (int i = 0; i < 400; i++) {
            double seconds = 0.01 * (i / 2 + (i % 2 == 0 ? 0 : 0.4));
            text.append(fixed(perSecond * seconds, 9))
                    .append(separator)
                    .append(i % 2 == 0 ? high : low)
                    .append('\n');
        }
        Path file = folder.resolve("edges.txt");
        Files.writeString(file, text, StandardCharsets.UTF_8);
        SampleSource source = Recordings.open(file, "edges.txt", ReadOptions.NONE);

        assertEquals("list of edges", source.format().encoding());
        assertEquals(1.994, source.samples() / source.sampleRateHz(), 0.001);
        double high04 = 0;
        for (double sample : ReadBack.channel(source, 0)) {
            high04 += sample / source.sampleRateHz();
        }
        assertEquals(0.8, high04, 0.005);
    }

    @Test
    void edges_in_an_unknown_unit_or_none_are_refused() throws IOException {
        for (String header : new String[] {"Time (ticks),D0", "Time,D0"}) {
            String text =
                    header + "\n" + "0,1\n1250,0\n2500,1\n3750,0\n5000,1\n6250,0\n7500,1\n8750,0\n10000,1\n11250,0\n";
            Path file = folder.resolve("edges.txt");
            Files.writeString(file, text, StandardCharsets.UTF_8);
            String message = assertThrows(
                            CaptureException.class, () -> Recordings.open(file, "edges.txt", ReadOptions.NONE))
                    .getMessage();
            assertTrue(message.contains(header.contains("ticks") ? "'ticks'" : "without a unit"), message);
        }
    }

    /** An edge that is lost would be a cycle that is lost. */
    @Test
    void a_damaged_edge_is_refused() throws IOException {
        StringBuilder text = new StringBuilder("Time (s),D0\n");
        for (int i = 0; i < 80; i++) {
            text.append(i == 5 ? "bad" : fixed(0.005 * i, 3)).append(i % 2 == 0 ? ",1\n" : ",0\n");
        }
        Path file = folder.resolve("edges.txt");
        Files.writeString(file, text, StandardCharsets.UTF_8);
        String message = assertThrows(
                        CaptureException.class, () -> Recordings.open(file, "edges.txt", ReadOptions.NONE))
                .getMessage();
        assertTrue(message.startsWith("edges.txt:7: found 'bad,0'"), message);
    }
}
