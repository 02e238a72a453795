package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;

/** FLAC files as they should be, and those whose length is not as the header says. */
class FlacSourceTest {
    /** Place of the number of samples, 36 bits from the lower half of byte 21 on. */
    private static final int SAMPLES_AT = 22;

    private static final int MD5_AT = 26;

    @TempDir
    private Path folder;

    @ParameterizedTest
    @EnumSource
    void stored_files_are_read_exactly(FlacStored stored) throws IOException {
        FlacSource source = FlacBytes.source(folder, stored.bytes());
        long[][] expected = stored.samples();
        assertEquals(stored.rateHz, source.sampleRateHz());
        assertEquals(stored.channels, source.channels());
        assertEquals(expected[0].length, source.samples());
        assertEquals(List.of(), source.remarks());
        assertArrayEquals(expected, FlacBytes.samples(source));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 191, 192, 193, 5000})
    void any_size_of_block_gives_the_same(int blockSamples) throws IOException {
        FlacSource source = FlacBytes.source(folder, FlacStored.TACHO_16_STEREO.bytes());
        double[][] expected = ReadBack.all(source, 1000);
        assertArrayEquals(expected, ReadBack.all(source, blockSamples));
    }

    @Test
    void two_readers_do_not_disturb_each_other_and_the_end_stays_the_end() throws IOException {
        FlacSource source = FlacBytes.source(folder, FlacStored.TACHO_8.bytes());
        double[][] one = new double[1][700];
        double[][] two = new double[1][700];
        try (BlockReader first = source.open();
                BlockReader second = source.open()) {
            assertEquals(700, first.read(one));
            assertEquals(700, second.read(two));
            assertArrayEquals(one, two);
            assertEquals(500, first.read(one));
            assertEquals(0, first.read(one));
            assertEquals(0, first.read(one));
            assertEquals(500, second.read(two));
        }
        assertArrayEquals(one, two);
    }

    @Test
    void the_format_is_told() throws IOException {
        FlacSource source = FlacBytes.source(folder, FlacStored.TACHO_24.bytes());
        assertEquals(
                new SampleFormat(
                        "FLAC",
                        "FLAC 24 bit",
                        "FS",
                        OptionalDouble.of(1),
                        OptionalDouble.of(1 / 8388608.0),
                        SampleFormat.RecorderKind.SOUND_CARD),
                source.format());
        assertEquals("some.flac", source.name());
        assertEquals("1", source.channelName(0));
    }

    @Test
    void tags_before_the_mark_and_metadata_behind_it_are_passed() throws IOException {
        byte[] tag = new FlacBytes()
                .bits(0x4944330400L, 40)
                .bits(0x10, 8)
                .bits(0x0000020A, 32)
                .raw(new byte[256 + 10 + 10])
                .bytes();
        byte[] tags = new FlacBytes()
                .raw(tag)
                .raw(tag)
                .mark()
                .block(false, 0, 34)
                .info(16, 4096, 8000, 1, 16, 1)
                .block(false, 6, 200_000)
                .raw(new byte[200_000])
                .block(true, 1, 0)
                .frame(1, 0, 0)
                .constant(16, -5)
                .sum16()
                .bytes();
        assertArrayEquals(new long[][] {{-5}}, FlacBytes.samples(FlacBytes.source(folder, tags)));
    }

    @Test
    void without_a_length_the_frames_are_counted() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        promise(bytes, 0);
        FlacSource source = FlacBytes.source(folder, bytes);
        assertEquals(3000, source.samples());
        assertArrayEquals(FlacStored.TACHO_16.samples(), FlacBytes.samples(source));
        assertOneRemark(source, "does not say how long");
    }

    @Test
    void a_promise_too_small_is_remarked_and_all_is_read() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        promise(bytes, 1024);
        FlacSource source = FlacBytes.source(folder, bytes);
        assertArrayEquals(FlacStored.TACHO_16.samples(), FlacBytes.samples(source));
        assertOneRemark(source, "promises 1024 samples, the file holds 3000");
    }

    @Test
    void a_promise_too_large_says_that_the_end_is_missing() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        promise(bytes, 3001);
        assertOneRemark(
                FlacBytes.source(folder, bytes), "promises 3001 samples, the file holds 3000: its end is missing");
    }

    @Test
    void another_md5_is_a_remark() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        bytes[MD5_AT] ^= 1;
        FlacSource source = FlacBytes.source(folder, bytes);
        assertArrayEquals(FlacStored.TACHO_16.samples(), FlacBytes.samples(source));
        assertOneRemark(source, "MD5");
    }

    @Test
    void no_md5_is_no_remark() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        Arrays.fill(bytes, MD5_AT, MD5_AT + 16, (byte) 0);
        assertEquals(List.of(), FlacBytes.source(folder, bytes).remarks());
    }

    @Test
    void what_stands_behind_the_last_frame_is_remarked() throws IOException {
        byte[] bytes = FlacStored.SHORT.bytes();
        byte[] tagged = new FlacBytes()
                .raw(bytes)
                .raw((byte) 'T', (byte) 'A', (byte) 'G')
                .raw(new byte[125])
                .bytes();
        FlacSource source = FlacBytes.source(folder, tagged);
        assertArrayEquals(FlacStored.SHORT.samples(), FlacBytes.samples(source));
        assertOneRemark(source, "from byte " + bytes.length + " on");
    }

    /** A long file, so that frames and what they are made of lie across the ends of the buffer. */
    @Test
    void a_file_longer_than_the_buffer_is_read_exactly() throws IOException {
        Random random = new Random(11);
        FlacBytes bytes = new FlacBytes().header(48_000, 1, 16, 0);
        byte[] all = bytes.bytes();
        long[] expected = new long[60 * 1500];
        for (int frame = 0; frame < 60; frame++) {
            FlacBytes one = new FlacBytes()
                    .frame(1500, 0, frame)
                    .bits(8 << 1, 8)
                    .bits(0, 6)
                    .bits(13, 4);
            for (int i = 0; i < 1500; i++) {
                long value = random.nextInt(65_536) - 32_768;
                expected[frame * 1500 + i] = value;
                one.rice(value, 13);
            }
            all = new FlacBytes().raw(all).raw(one.sum16().bytes()).bytes();
        }
        FlacSource source = FlacBytes.source(folder, all);
        assertTrue(all.length > 150_000, all.length + " bytes");
        assertArrayEquals(new long[][] {expected}, FlacBytes.samples(source));
    }

    @Test
    void a_file_that_becomes_shorter_is_refused_while_it_is_read() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        FlacSource source = FlacBytes.source(folder, bytes);
        Files.write(folder.resolve("some.flac"), Arrays.copyOf(bytes, 2000));
        CaptureException refused = assertThrows(CaptureException.class, () -> ReadBack.all(source, 1000));
        assertEquals("some.flac: the file became shorter while it was read", refused.getMessage());
    }

    private static void promise(byte[] bytes, int samples) {
        for (int i = 0; i < 4; i++) {
            bytes[SAMPLES_AT + i] = (byte) (samples >> 24 - 8 * i);
        }
    }

    private static void assertOneRemark(FlacSource source, String part) {
        assertEquals(1, source.remarks().size(), source.remarks().toString());
        assertTrue(source.remarks().get(0).contains(part), source.remarks().toString());
    }
}
