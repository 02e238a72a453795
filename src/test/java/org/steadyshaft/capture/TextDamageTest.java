package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.steadyshaft.capture.TextFiles.ROWS;
import static org.steadyshaft.capture.TextFiles.pair;
import static org.steadyshaft.capture.TextFiles.table;
import static org.steadyshaft.capture.TextFiles.volts;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Text that is cut, damaged or no recording at all. */
class TextDamageTest {
    private static final String NAMES = "Time,Tacho\n";

    @TempDir
    private Path folder;

    private String refusal(String text) throws IOException {
        return refusal(text.getBytes(StandardCharsets.UTF_8));
    }

    private String refusal(byte[] bytes) throws IOException {
        Path file = Files.write(folder.resolve("run7.csv"), bytes);
        CaptureException refused =
                assertThrows(CaptureException.class, () -> Recordings.open(file, "run7.csv", ReadOptions.NONE));
        String message = refused.getMessage();
        assertTrue(message.startsWith("run7.csv:"), message);
        assertTrue(message.length() < 300, "too long: " + message);
        assertTrue(message.codePoints().noneMatch(Character::isISOControl), "control characters in: " + message);
        return message;
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(
            strings = {"0.15", "0.15,", "0.15,-", "0.15,1e", "0.1", "\u0000\u0000\u0000", "0.15\r\n", "0.15\n\n \n"})
    void a_cut_last_line_is_left_out(String last) throws IOException {
        TextSource source = TextFiles.open(folder, table(NAMES, i -> pair(i, ",")) + last);

        assertEquals(ROWS, source.samples());
        assertEquals(ROWS, ReadBack.channel(source, 0).length);
    }

    /** The sample that the line took away is drawn between its neighbours: nothing behind it moves. */
    @ParameterizedTest(name = "[{0}]")
    @ValueSource(
            strings = {
                "0.1",
                "0.1,abc",
                "0.1;0.2",
                "0.1,NaN",
                "0.1,1e999",
                "0.1,0.2.3",
                "***",
                ",0.3",
                "0.1,0x1p3",
                "0,0",
                "9,0.5"
            })
    void a_damaged_line_within_is_left_out_and_told(String bad) throws IOException {
        for (int at : new int[] {450, 20, 3, 598}) {
            TextSource source = TextFiles.open(folder, table(NAMES, i -> i == at ? bad : pair(i, ",")));

            assertEquals(
                    List.of("Line " + (at + 2) + " ('" + bad + "') holds no numbers or a time out of order: left out;"
                            + " where a sample is missing, a straight line stands."),
                    source.remarks());
            double[] samples = ReadBack.channel(source, 0);
            assertEquals(ROWS, samples.length);
            for (int i = 0; i < ROWS; i++) {
                double expected = i == at ? (volts(at - 1) + volts(at + 1)) / 2 : volts(i);
                assertEquals(expected, samples[i], 1e-12, "sample " + i);
            }
        }
    }

    @Test
    void a_repeated_header_within_takes_no_sample_away() throws IOException {
        TextSource source = TextFiles.open(folder, table(NAMES, i -> (i == 450 ? NAMES : "") + pair(i, ",")));

        assertEquals(ROWS, source.samples());
        assertEquals(volts(450), ReadBack.channel(source, 0)[450]);
        assertEquals(1, source.remarks().size());
    }

    @Test
    void many_damaged_lines_are_refused_with_the_first() throws IOException {
        assertEquals(
                "run7.csv:302: found 'bad'; expected 2 numbers",
                refusal(table(NAMES, i -> i >= 300 && i < 303 ? "bad" : pair(i, ","))));
        assertEquals(
                "run7.csv:302: found 'bad'; expected 2 numbers",
                refusal(table(NAMES, i -> i >= 300 && i % 20 == 0 ? "bad" : pair(i, ","))));
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(strings = {"0,0", "0,0\n0,0\n0,0", "0.1,0.5", ","})
    void a_last_line_out_of_order_is_left_out_and_told(String last) throws IOException {
        TextSource source = TextFiles.open(folder, table(NAMES, i -> pair(i, ",")) + last + "\n");

        assertEquals(ROWS, source.samples());
        assertEquals(ROWS, ReadBack.channel(source, 0).length);
        assertTrue(
                source.remarks().get(0).startsWith("The last line (602, "),
                source.remarks().toString());
    }

    @Test
    void a_damaged_line_counts_blank_lines_and_any_line_end() throws IOException {
        String text = table("about\n\n\n" + NAMES + "\n", i -> i >= 450 && i < 453 ? "bad" : pair(i, ","))
                .replace("\n", "\r\n");

        assertEquals("run7.csv:456: found 'bad'; expected 2 numbers", refusal(text));
    }

    @Test
    void a_long_damaged_line_is_shortened_in_the_message() throws IOException {
        String message = refusal(table(NAMES, i -> i >= 450 && i < 453 ? "z".repeat(5000) : pair(i, ",")));

        assertTrue(message.contains("zzz...'"), message);
    }

    @Test
    void control_characters_of_a_damaged_line_stay_out_of_the_message() throws IOException {
        String message = refusal(table(NAMES, i -> i >= 450 && i < 453 ? "0.1,\u001B[2J\u0000\u0007" : pair(i, ",")));

        assertTrue(message.startsWith("run7.csv:452: found '0.1,"), message);
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(
            strings = {"a", "hello\nworld\n", "Time,Tacho\n", "Time,Tacho\n0.1,0.2\n", "\n\n\n", "{\"a\": [1, 2]}"})
    void text_without_a_table(String text) throws IOException {
        String message = refusal(text);

        assertTrue(message.startsWith("run7.csv:1: found no rows of numbers"), message);
        assertTrue(message.contains("expected a table of voltages"), message);
    }

    @Test
    void times_without_voltages() throws IOException {
        String message = refusal(table("Time (s)\n", i -> TextFiles.fixed(i / 4000.0, 6)));
        assertTrue(message.contains("times only"), message);
    }

    @Test
    void a_line_that_never_ends() throws IOException {
        String message = refusal("0,1,".repeat(300_000));

        assertTrue(message.startsWith("run7.csv:1: a line of more than 65536 characters; expected"), message);
    }

    @Test
    void a_line_that_never_ends_within_the_table() throws IOException {
        String message = refusal(table(NAMES, i -> i == 450 ? "9".repeat(100_000) : pair(i, ",")));

        assertTrue(message.startsWith("run7.csv:452: a line of more than"), message);
    }

    private static byte[] packed(byte[] bytes) throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (OutputStream out = new GZIPOutputStream(packed)) {
            out.write(bytes);
        }
        return packed.toByteArray();
    }

    @Test
    void a_packed_wav_is_named_without_its_bytes() throws IOException {
        byte[] wav = new WavBytes()
                .format(1, 1, 8000, 16)
                .chunk("data", new byte[4000])
                .bytes();

        assertTrue(refusal(packed(wav)).contains("expected"));
    }

    @Test
    void packed_text_that_was_cut() throws IOException {
        byte[] whole = packed(table(NAMES, i -> pair(i, ",")).getBytes(StandardCharsets.UTF_8));

        assertTrue(refusal(Arrays.copyOf(whole, whole.length / 2)).length() > 20);
        assertTrue(refusal(Arrays.copyOf(whole, 3)).length() > 20);
    }

    @Test
    void other_binary_files_are_told_by_their_first_bytes() throws IOException {
        assertTrue(refusal(new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0})
                .contains("bytes 89 50 4E 47"));
        assertTrue(refusal(new byte[100]).contains("expected WAV, AIFF, FLAC, or text"));
        assertTrue(refusal(new byte[] {'P', 'K', 3, 4, 20, 0, 0, 0}).contains("expected WAV, AIFF, FLAC, or text"));
    }

    /** Whatever bytes change: samples or a refusal, never another exception. */
    @Test
    void any_damaged_text_is_read_or_refused() throws IOException {
        long seed = 77;
        Random random = new Random(seed);
        byte[] whole = table("Sample rate: 4 kHz\n" + NAMES + "(s),(V)\n", i -> pair(i, ","))
                .substring(0, 1200)
                .getBytes(StandardCharsets.UTF_8);
        for (int round = 0; round < 1500; round++) {
            byte[] damaged = Arrays.copyOf(whole, 100 + random.nextInt(whole.length - 100));
            for (int i = random.nextInt(5); i >= 0; i--) {
                int at = random.nextInt(random.nextBoolean() ? 100 : damaged.length);
                damaged[at] = (byte)
                        (random.nextBoolean() ? "\n\r\t ;,.-+eE\"#0".charAt(random.nextInt(14)) : random.nextInt());
            }
            Path file = Files.write(folder.resolve("run7.csv"), damaged);
            try {
                var source = Recordings.open(file, "run7.csv", ReadOptions.NONE);
                assertTrue(source.sampleRateHz() > 0 && Double.isFinite(source.sampleRateHz()));
                assertEquals(source.samples(), ReadBack.channel(source, 0).length);
            } catch (CaptureException e) {
                assertTrue(e.getMessage().startsWith("run7.csv"), e.getMessage());
            } catch (RuntimeException | AssertionError e) {
                throw new AssertionError("seed " + seed + ", round " + round, e);
            }
        }
    }
}
