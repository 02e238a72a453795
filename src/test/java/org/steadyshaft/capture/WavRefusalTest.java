package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** WAV files that are refused, and damaged ones of which the whole part is used. */
class WavRefusalTest {
    private static final int PCM = 1;

    @TempDir
    private Path folder;

    private String refusal(byte[] bytes) {
        CaptureException refused = assertThrows(CaptureException.class, () -> WavBytes.source(folder, bytes));
        String message = refused.getMessage();
        assertTrue(message.startsWith("some.wav: "), message);
        assertTrue(message.codePoints().noneMatch(Character::isISOControl), "control characters in: " + message);
        return message;
    }

    private String refusal(WavBytes wav) {
        return refusal(wav.bytes());
    }

    private static void assertSays(String message, String... parts) {
        for (String part : parts) {
            assertTrue(message.contains(part), message + "\nlacks: " + part);
        }
    }

    @Test
    void another_form_than_wave_is_named() {
        assertSays(refusal(new WavBytes().form("AVI ")), "byte 8", "'AVI '", "expected 'WAVE'");
    }

    @Test
    void a_form_of_control_characters_does_not_reach_the_screen() {
        assertSays(refusal(new WavBytes().form("\u001B[\n\0")), "byte 8", "expected 'WAVE'");
    }

    @Test
    void no_data_chunk() {
        assertSays(
                refusal(new WavBytes().format(PCM, 1, 8000, 16).chunk("LIST", new byte[8])),
                "no data chunk in 52 bytes",
                "expected one");
    }

    @Test
    void a_junk_chunk_that_runs_past_the_end_hides_the_data() {
        byte[] bytes = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("JUNK", 0xFFFFFFF0L, WavBytes.shorts(1, 2))
                .chunk("data", WavBytes.shorts(1))
                .bytes();
        assertSays(refusal(bytes), "no data chunk");
    }

    @Test
    void data_before_any_format() {
        assertSays(refusal(new WavBytes().chunk("data", WavBytes.shorts(1))), "byte 12", "format chunk of 16 bytes");
    }

    @Test
    void a_format_chunk_too_short() {
        assertSays(
                refusal(new WavBytes().chunk("fmt ", new byte[14]).chunk("data", WavBytes.shorts(1))),
                "byte 34",
                "format chunk of 16 bytes");
    }

    @ParameterizedTest
    @CsvSource({
        "2, 4, ADPCM, code 2",
        "6, 8, A-law, code 6",
        "7, 8, mu-law, code 7",
        "0x11, 4, IMA ADPCM, code 17",
        "0x31, 0, GSM 6.10, code 49",
        "0x50, 0, MPEG, code 80",
        "0x55, 0, MPEG layer 3, code 85",
        "0x1234, 16, unknown, code 4660",
        "1, 64, PCM, 64 bits",
        "1, 0, PCM, 0 bits",
        "3, 16, float, 16 bits"
    })
    void a_refused_code_is_named(String code, int bits, String name, String detail) {
        WavBytes wav =
                new WavBytes().format(Integer.decode(code), 1, 8000, bits, 1).chunk("data", new byte[64]);
        assertSays(
                refusal(wav), "coded as " + name + " (", detail, "expected PCM of 8 to 32 bits or float of 32 or 64");
    }

    @Test
    void a_refused_code_inside_the_extensible_format_is_named() {
        assertSays(
                refusal(new WavBytes().extensible(7, 1, 8000, 8, 8).chunk("data", new byte[64])),
                "mu-law",
                "expected PCM");
    }

    @Test
    void a_block_size_that_does_not_fit() {
        assertSays(
                refusal(new WavBytes().format(PCM, 2, 8000, 16, 6).chunk("data", new byte[64])),
                "block size of 6 bytes",
                "expected 4 for 2 channels of PCM 16 bit");
    }

    @ParameterizedTest
    @CsvSource({
        "0, 8000, found 0 channels; expected 1 to 64",
        "65, 8000, found 65 channels; expected 1 to 64",
        "1, 0, found 0 sample rate; expected 1 to 100000000",
        "1, -1, found 4294967295 sample rate; expected 1 to 100000000"
    })
    void channels_and_rate_out_of_range(int channels, int rate, String says) {
        assertSays(
                refusal(new WavBytes().format(PCM, channels, rate, 16).chunk("data", new byte[64])),
                "format chunk",
                says);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void no_whole_sample(int bytes) {
        WavBytes wav = new WavBytes().format(PCM, 1, 8000, 16).chunk("data", new byte[bytes]);
        assertSays(refusal(bytes == 0 ? wav.bytes() : Arrays.copyOf(wav.bytes(), 45)), "no samples");
    }

    @ParameterizedTest
    @ValueSource(ints = {4, 11, 30, 44})
    void a_file_cut_within_its_header(int length) {
        byte[] whole = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", WavBytes.shorts(1, 2, 3))
                .bytes();
        String message = refusal(Arrays.copyOf(whole, length));
        assertSays(message, length == 44 ? "no samples" : "the file ends inside the");
    }

    @ParameterizedTest
    @CsvSource({"32, NaN", "32, Infinity", "64, NaN", "64, -Infinity"})
    void a_sample_that_is_no_number_is_pointed_at(int bits, double bad) throws IOException {
        ByteBuffer data = WavBytes.little(bits / 8 * 2 * 5000);
        if (bits == 32) {
            data.putFloat(4 * (2 * 4321 + 1), (float) bad);
        } else {
            data.putDouble(8 * (2 * 4321 + 1), bad);
        }
        PcmSource source = new WavBytes()
                .format(3, 2, 8000, bits)
                .chunk("data", data.array())
                .in(folder);

        CaptureException refused = assertThrows(CaptureException.class, () -> ReadBack.all(source, 1000));

        assertSays(refused.getMessage(), "some.wav: sample 4321 of channel 2 is " + bad + "; expected a finite number");
    }

    @Test
    void a_truncated_data_chunk_is_used_and_said() throws IOException {
        byte[] whole = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", WavBytes.shorts(16384, -16384, 1, 2))
                .bytes();

        PcmSource source = WavBytes.source(folder, Arrays.copyOf(whole, whole.length - 3));

        assertEquals(2, source.samples());
        assertArrayEquals(new double[] {0.5, -0.5}, ReadBack.channel(source, 0));
        assertEquals(1, source.remarks().size());
        assertSays(source.remarks().get(0), "promises 8 bytes", "holds 5", "What is there was used");
    }

    @Test
    void a_header_that_claims_three_gigabytes_costs_no_memory() throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", 3_000_000_000L, WavBytes.shorts(16384, -16384))
                .in(folder);

        assertEquals(2, source.samples());
        assertArrayEquals(new double[] {0.5, -0.5}, ReadBack.channel(source, 0));
        assertSays(source.remarks().get(0), "promises 3000000000 bytes", "holds 4");
    }

    @Test
    void an_rf64_size_beyond_any_file_is_cut_to_what_is_there() throws IOException {
        PcmSource source = new WavBytes()
                .container("RF64")
                .sizes(Long.MAX_VALUE, Long.MAX_VALUE)
                .format(PCM, 1, 8000, 16)
                .chunk("data", 0xFFFFFFFFL, WavBytes.shorts(16384))
                .in(folder);

        assertEquals(1, source.samples());
        assertSays(source.remarks().get(0), "holds 2");
    }

    @ParameterizedTest
    @ValueSource(longs = {0, 0xFFFFFFFFL})
    void an_unknown_length_means_up_to_the_end(long claimed) throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", claimed, WavBytes.shorts(16384, -16384, 0))
                .in(folder);

        assertEquals(3, source.samples());
        assertArrayEquals(new double[] {0.5, -0.5, 0}, ReadBack.channel(source, 0));
        assertSays(source.remarks().get(0), "does not say how long", "up to the end of the file");
    }

    @Test
    void a_file_that_shrinks_while_it_is_read() throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", new byte[4000])
                .in(folder);
        Files.write(folder.resolve("some.wav"), new byte[50], StandardOpenOption.TRUNCATE_EXISTING);

        CaptureException refused = assertThrows(CaptureException.class, () -> ReadBack.all(source, 1000));

        assertSays(refused.getMessage(), "some.wav", "became shorter");
    }

    /** Whatever bytes change in the header: samples or a refusal, never another exception. */
    @Test
    void any_damaged_header_is_read_or_refused() throws IOException {
        long seed = 20_240_611;
        Random random = new Random(seed);
        byte[] whole = new WavBytes()
                .container("RF64")
                .sizes(400, 100)
                .extensible(PCM, 2, 8000, 16, 16)
                .chunk("data", 0xFFFFFFFFL, new byte[400])
                .bytes();
        for (int round = 0; round < 1500; round++) {
            byte[] damaged = whole.clone();
            for (int i = random.nextInt(4); i >= 0; i--) {
                ByteBuffer.wrap(damaged).order(ByteOrder.LITTLE_ENDIAN).put(random.nextInt(damaged.length - 390), (byte)
                        (random.nextBoolean() ? 0xFF : random.nextInt()));
            }
            byte[] cut = random.nextInt(4) == 0 ? Arrays.copyOf(damaged, random.nextInt(damaged.length)) : damaged;
            try {
                PcmSource source = WavBytes.source(folder, cut);
                assertEquals(source.samples(), ReadBack.all(source, 64)[0].length);
            } catch (CaptureException e) {
                assertTrue(e.getMessage().startsWith("some.wav"), e.getMessage());
            } catch (RuntimeException | AssertionError e) {
                throw new AssertionError("seed " + seed + ", round " + round, e);
            }
        }
    }
}
