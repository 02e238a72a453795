package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PcmSourceTest {
    private static final int PCM = 1;
    private static final int FLOAT = 3;

    @TempDir
    private Path folder;

    @ParameterizedTest(name = "code {0}, {1} bits")
    @CsvSource({
        "1,  8, PCM 8 bit,    00 40 80 ff,                      -1 -0.5 0 0.9921875",
        "1, 16, PCM 16 bit,   0080 00c0 0000 ff7f,              -1 -0.5 0 0.999969482421875",
        "1, 24, PCM 24 bit,   000080 0000c0 ffffff ffff7f,      -1 -0.5 -1.1920928955078125E-7 0.9999998807907104",
        "1, 32, PCM 32 bit,   00000080 000000c0 00000000 ffffffff, -1 -0.5 0 -4.656612873077393E-10",
        "3, 32, float 32 bit, 0000803f 000000c0 00000000,       1 -2 0",
        "3, 64, float 64 bit, 000000000000f03f 00000000000004c0, 1 -2.5"
    })
    void every_encoding_gives_the_values_its_bytes_stand_for(
            int code, int bits, String title, String hex, String values) throws IOException {
        byte[] data = HexFormat.of().parseHex(hex.replace(" ", ""));
        double[] expected = Arrays.stream(values.split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();

        PcmSource source =
                new WavBytes().format(code, 1, 8000, bits).chunk("data", data).in(folder);

        assertEquals("WAV", source.format().container());
        assertEquals(title, source.format().encoding());
        assertEquals(8000, source.sampleRateHz());
        assertEquals(expected.length, source.samples());
        assertEquals(List.of(), source.remarks());
        assertArrayEquals(expected, ReadBack.channel(source, 0));
        boolean whole = code == PCM;
        assertEquals(
                whole ? OptionalDouble.of(1) : OptionalDouble.empty(),
                source.format().fullScale());
        assertEquals(
                whole ? OptionalDouble.of(Math.scalb(1.0, 1 - bits)) : OptionalDouble.empty(),
                source.format().step());
    }

    @Test
    void twelve_bits_stand_in_sixteen() throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 1, 8000, 12)
                .chunk("data", WavBytes.shorts(16384, -16))
                .in(folder);

        assertEquals(Math.scalb(1.0, -11), source.format().step().getAsDouble());
        assertArrayEquals(new double[] {0.5, -1.0 / 2048}, ReadBack.channel(source, 0));
    }

    @Test
    void extensible_pcm_is_read() throws IOException {
        PcmSource source = new WavBytes()
                .extensible(PCM, 2, 48000, 16, 16)
                .chunk("data", WavBytes.shorts(16384, -16384))
                .in(folder);

        assertEquals("PCM 16 bit", source.format().encoding());
        assertArrayEquals(new double[][] {{0.5}, {-0.5}}, ReadBack.all(source, 10));
    }

    @Test
    void extensible_float_is_read() throws IOException {
        PcmSource source = new WavBytes()
                .extensible(FLOAT, 1, 48000, 32, 32)
                .chunk("data", WavBytes.little(4).putFloat(1.5f).array())
                .in(folder);

        assertEquals("float 32 bit", source.format().encoding());
        assertArrayEquals(new double[] {1.5}, ReadBack.channel(source, 0));
    }

    @Test
    void twenty_four_valid_bits_in_thirty_two_set_the_step() throws IOException {
        PcmSource source = new WavBytes()
                .extensible(PCM, 1, 48000, 32, 24)
                .chunk("data", WavBytes.little(4).putInt(0x40000000).array())
                .in(folder);

        assertEquals("PCM 32 bit", source.format().encoding());
        assertEquals(Math.scalb(1.0, -23), source.format().step().getAsDouble());
        assertArrayEquals(new double[] {0.5}, ReadBack.channel(source, 0));
    }

    @Test
    void rf64_takes_its_length_from_the_ds64_chunk() throws IOException {
        PcmSource source = new WavBytes()
                .container("RF64")
                .sizes(4, 2)
                .format(PCM, 1, 8000, 16)
                .chunk("data", 0xFFFFFFFFL, WavBytes.shorts(16384, -16384))
                .chunk("LIST", new byte[20])
                .in(folder);

        assertEquals("WAV RF64", source.format().container());
        assertEquals(List.of(), source.remarks());
        assertArrayEquals(new double[] {0.5, -0.5}, ReadBack.channel(source, 0));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 3, 26, 70_001})
    void chunks_before_the_data_are_passed_over_with_their_pad_byte(int length) throws IOException {
        byte[] junk = new byte[length];
        Arrays.fill(junk, (byte) 'd');
        PcmSource source = new WavBytes()
                .chunk("JUNK", junk)
                .format(PCM, 1, 8000, 16)
                .chunk("bext", junk)
                .chunk("data", WavBytes.shorts(16384, -16384))
                .chunk("LIST", junk)
                .in(folder);

        assertEquals(List.of(), source.remarks());
        assertArrayEquals(new double[] {0.5, -0.5}, ReadBack.channel(source, 0));
    }

    @Test
    void a_format_chunk_of_odd_size_is_padded_too() throws IOException {
        byte[] body = new byte[19];
        System.arraycopy(new WavBytes().format(PCM, 1, 8000, 16).bytes(), 20, body, 0, 16);
        PcmSource source = new WavBytes()
                .chunk("fmt ", body)
                .chunk("data", WavBytes.shorts(16384))
                .in(folder);

        assertArrayEquals(new double[] {0.5}, ReadBack.channel(source, 0));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5, 64})
    void channels_are_kept_apart(int channels) throws IOException {
        int[] values = new int[channels * 7];
        for (int i = 0; i < values.length; i++) {
            values[i] = 256 * (i % channels) + i / channels;
        }
        PcmSource source = new WavBytes()
                .format(PCM, channels, 8000, 16)
                .chunk("data", WavBytes.shorts(values))
                .in(folder);

        assertEquals(channels, source.channels());
        assertEquals(Integer.toString(channels), source.channelName(channels - 1));
        double[][] all = ReadBack.all(source, 3);
        for (int c = 0; c < channels; c++) {
            for (int i = 0; i < 7; i++) {
                assertEquals((256 * c + i) / 32768.0, all[c][i]);
            }
        }
    }

    /** More than one buffer of the reader, so that blocks also end where its buffers do. */
    @ParameterizedTest
    @ValueSource(ints = {997, 4096, 65_537, 1_000_000})
    void blocks_of_any_size_give_the_same_samples(int blockSamples) throws IOException {
        byte[] data = new byte[3 * 2 * 70_001];
        new Random(7).nextBytes(data);
        PcmSource source =
                new WavBytes().format(PCM, 2, 8000, 24).chunk("data", data).in(folder);

        double[][] all = ReadBack.all(source, blockSamples);

        assertEquals(70_001, all[1].length);
        for (int i = 0; i < all[0].length; i += 13) {
            int at = 6 * i + 3;
            int value = data[at] & 0xFF | (data[at + 1] & 0xFF) << 8 | data[at + 2] << 16;
            assertEquals(value / 8388608.0, all[1][i], "sample " + i);
        }
    }

    @Test
    void a_recording_opens_again_and_again() throws IOException {
        byte[] data = new byte[20_001];
        new Random(8).nextBytes(data);
        PcmSource source =
                new WavBytes().format(PCM, 1, 8000, 8).chunk("data", data).in(folder);

        double[] first = ReadBack.channel(source, 0);
        double[] again = ReadBack.channel(source, 0);

        assertEquals(20_001, first.length);
        assertArrayEquals(first, again);
    }

    @Test
    void a_frame_that_is_not_whole_is_left_out() throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 2, 8000, 16)
                .chunk("data", WavBytes.shorts(1, 2, 3))
                .in(folder);

        assertEquals(1, source.samples());
        assertEquals(1, ReadBack.all(source, 8)[0].length);
    }

    @Test
    void the_sound_card_is_told_from_the_scope() throws IOException {
        PcmSource source = new WavBytes()
                .format(PCM, 1, 8000, 16)
                .chunk("data", WavBytes.shorts(1))
                .in(folder);

        assertEquals("SOUND_CARD", source.format().kind().name());
        assertTrue(source.format().unit().equals("FS"));
    }
}
