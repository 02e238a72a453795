package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Recordings that are whole but extreme: lengths, levels, rates. A verdict each, never a fault of the program. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class ExtremeInputTest {
    @TempDir
    private Path folder;

    private Path out;

    @BeforeEach
    void place() {
        out = folder.resolve("out");
    }

    /** Samples as 64-bit floats. */
    private Path floats(int rate, int samples, IntToDoubleFunction volts) throws IOException {
        ByteBuffer wav = ByteBuffer.allocate(44 + 8 * samples).order(ByteOrder.LITTLE_ENDIAN);
        wav.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 8 * samples);
        wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16).putShort((short) 3);
        wav.putShort((short) 1)
                .putInt(rate)
                .putInt(8 * rate)
                .putShort((short) 8)
                .putShort((short) 64);
        wav.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(8 * samples);
        for (int i = 0; i < samples; i++) {
            wav.putDouble(volts.applyAsDouble(i));
        }
        return Files.write(folder.resolve("odd.wav"), wav.array());
    }

    private static double sine(int sample) {
        return Math.sin(2 * Math.PI * 120 * sample / 8000.0);
    }

    /** The odd capture gets a verdict and the good one beside it is done. */
    private CommandRun judged(Path odd) throws IOException {
        Path good = CommandRun.wav(folder.resolve("good.wav"));
        CommandRun run = CommandRun.of("--out", out, odd, good);
        assertFalse(run.err().contains("a fault in this program"), run.err());
        assertFalse(run.err().contains("Exception"), run.err());
        CommandRun.assertReported(out, "good");
        assertTrue(Files.exists(out.resolve("odd/result.json")));
        assertTrue(Files.exists(out.resolve("odd/report.html")));
        return run;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 10, 65, 1000})
    void short_recordings(int samples) throws IOException {
        judged(floats(8000, samples, ExtremeInputTest::sine));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-300, 1e-20, 1e20, 1e200, 1e300, Double.MAX_VALUE})
    void levels_far_from_any_tacho(double peak) throws IOException {
        judged(floats(8000, 16_000, i -> peak * sine(i)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, -1e9, 1e200})
    void a_sine_on_an_offset(double offset) throws IOException {
        judged(floats(8000, 16_000, i -> offset + sine(i)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 1, -1e300})
    void a_level_that_never_changes(double volts) throws IOException {
        CommandRun run = judged(floats(8000, 16_000, i -> volts));

        assertEquals(1, run.status(), "a speed was told of a flat line");
        CommandRun.assertRefused(out, "odd");
    }

    @Test
    void a_single_spike() throws IOException {
        assertEquals(1, judged(floats(8000, 16_000, i -> i == 8000 ? 1 : 0)).status());
    }

    @Test
    void a_square_at_half_the_rate() throws IOException {
        judged(floats(8000, 16_000, i -> i % 2 == 0 ? 1 : -1));
    }

    @Test
    void white_noise_is_no_rotation() throws IOException {
        Random random = new Random(19);
        CommandRun run = judged(floats(8000, 24_000, i -> random.nextGaussian()));

        assertEquals(1, run.status(), "a speed was told of noise");
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 10, 1_000_000, 100_000_000})
    void rates_far_from_any_recorder(int rate) throws IOException {
        judged(floats(rate, 16_000, ExtremeInputTest::sine));
    }

    @ParameterizedTest(name = "interval {0} s")
    @ValueSource(strings = {"1e-300", "1e-9", "1", "1e300"})
    void intervals_of_text_far_from_any_scope(String interval) throws IOException {
        StringBuilder text = new StringBuilder("Sample Interval," + interval + "\nTacho (V)\n");
        for (int i = 0; i < 4000; i++) {
            text.append(sine(i)).append('\n');
        }
        judged(Files.writeString(folder.resolve("odd.csv"), text));
    }

    @ParameterizedTest(name = "stamps {0} s apart")
    @CsvSource({"1e-300", "1e-9", "1e6"})
    void stamps_of_text_far_from_any_scope(double interval) throws IOException {
        StringBuilder text = new StringBuilder("Time,Tacho\n");
        for (int i = 0; i < 4000; i++) {
            text.append(i * interval).append(',').append(sine(i)).append('\n');
        }
        judged(Files.writeString(folder.resolve("odd.csv"), text));
    }

    @ParameterizedTest
    @ValueSource(strings = {"-1e300", "1e160"})
    void a_single_wild_number_in_text(String wild) throws IOException {
        StringBuilder text = new StringBuilder("Time,Tacho\n");
        for (int i = 0; i < 12_000; i++) {
            text.append(i / 8000.0)
                    .append(',')
                    .append(i == 5000 ? wild : sine(i))
                    .append('\n');
        }
        judged(Files.writeString(folder.resolve("odd.csv"), text));
    }

    @Test
    void the_most_channels() throws IOException {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 2000; i++) {
            text.append(i / 4000.0);
            for (int c = 0; c < 60; c++) {
                text.append(';').append(c == 41 ? Math.sin(i * 0.2) : 0);
            }
            text.append('\n');
        }
        judged(Files.writeString(folder.resolve("odd.csv"), text));
        assertTrue(Files.readString(out.resolve("odd/result.json")).contains("\"channel\" : \"43\""));
    }

    /** Pole pairs at both ends of what is allowed. */
    @ParameterizedTest
    @ValueSource(ints = {1, 999})
    void pole_pairs_at_the_ends(int pairs) throws IOException {
        Path good = CommandRun.wav(folder.resolve("good.wav"));
        CommandRun run = CommandRun.of("--out", out, "--pole-pairs", pairs, good);

        assertEquals(0, run.status(), run.err());
        CommandRun.assertReported(out, "good");
    }
}
