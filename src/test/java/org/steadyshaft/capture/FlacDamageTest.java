package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files with a wrong byte, files cut off, and files made to do harm: a clear refusal or the right samples. */
@Timeout(120)
class FlacDamageTest {
    private static final int SAMPLES_AT = 22;

    @TempDir
    private Path folder;

    /**
     * What a damaged file may give: a refusal, all samples, or with a remark that its end is missing those before, which a
     * frame at the end cannot avoid that now seems longer than the file.
     */
    private String outcome(FlacStored stored, long[][] expected, String what) throws IOException {
        FlacSource source;
        try {
            source = FlacSource.open(folder.resolve("some.flac"), "some.flac");
        } catch (CaptureException e) {
            assertTrue(e.getMessage().startsWith("some.flac: "), what + ": " + e.getMessage());
            assertTrue(e.getMessage().contains("byte "), what + ": " + e.getMessage());
            return "refused";
        }
        assertEquals(stored.rateHz, source.sampleRateHz(), what);
        assertEquals("FLAC " + stored.bits + " bit", source.format().encoding(), what);
        int whole = expected[0].length;
        int there = (int) source.samples();
        long[][] wanted = new long[expected.length][];
        Arrays.setAll(wanted, c -> Arrays.copyOf(expected[c], Math.min(there, whole)));
        assertArrayEquals(wanted, FlacBytes.samples(source), what);
        if (there < whole) {
            assertTrue(source.remarks().toString().contains("is missing"), what + ": " + source.remarks());
            int blockSize = blockSize(stored.bytes());
            return there == (whole - 1) / blockSize * blockSize ? "shorter by the last frame" : "shorter";
        }
        return source.remarks().isEmpty() ? "same" : "remarked";
    }

    @ParameterizedTest
    @EnumSource
    void any_wrong_byte_is_noticed_or_harmless(FlacStored stored) throws IOException {
        byte[] bytes = stored.bytes();
        long[][] expected = stored.samples();
        int firstFrame = firstFrame(bytes);
        try (FileChannel file = file(bytes)) {
            for (int at = 0; at < bytes.length; at++) {
                for (int flip : new int[] {1 << at % 8, 0xFF}) {
                    put(file, at, bytes[at] ^ flip);
                    String what = "byte " + at + " flipped by " + flip;
                    String outcome = outcome(stored, expected, what);
                    boolean noticed = outcome.equals("refused") || outcome.equals("shorter by the last frame");
                    assertTrue(noticed || at < firstFrame, what + " in a frame: " + outcome);
                }
                put(file, at, bytes[at]);
            }
        }
        assertEquals("same", outcome(stored, expected, "put right again"));
    }

    @ParameterizedTest
    @EnumSource
    void cut_anywhere_the_whole_frames_are_read(FlacStored stored) throws IOException {
        byte[] bytes = stored.bytes();
        long[][] expected = stored.samples();
        int read = 0;
        try (FileChannel file = file(bytes)) {
            for (int length = bytes.length - 1; length >= 0; length--) {
                file.truncate(length);
                String outcome = outcome(stored, expected, "cut to " + length);
                assertTrue(
                        outcome.equals("refused") || outcome.startsWith("shorter"),
                        "cut to " + length + ": " + outcome);
                read += outcome.startsWith("shorter") ? 1 : 0;
            }
        }
        assertTrue(read > 0 || expected[0].length <= blockSize(bytes), "no cut file was read");
    }

    /** A file to be changed in place, which takes far less time than to write it anew. */
    private FileChannel file(byte[] bytes) throws IOException {
        Path file = folder.resolve("some.flac");
        Files.write(file, bytes);
        return FileChannel.open(file, StandardOpenOption.WRITE);
    }

    private static void put(FileChannel file, int at, int value) throws IOException {
        file.write(ByteBuffer.wrap(new byte[] {(byte) value}), at);
    }

    @Test
    void cut_without_a_promised_length_it_still_is_remarked() throws IOException {
        byte[] bytes = FlacStored.TACHO_16.bytes();
        Arrays.fill(bytes, SAMPLES_AT, SAMPLES_AT + 4, (byte) 0);
        FlacSource source = FlacBytes.source(folder, Arrays.copyOf(bytes, bytes.length - 1));
        assertEquals(2048, source.samples());
        assertEquals(2, source.remarks().size(), source.remarks().toString());
        assertTrue(
                source.remarks().get(0).contains("ends inside frame 2"),
                source.remarks().toString());
    }

    @Test
    void a_frame_taken_out_is_noticed() throws IOException {
        byte[] bytes = threeFrames();
        int each = (bytes.length - 42) / 3;
        byte[] without = new FlacBytes()
                .raw(Arrays.copyOf(bytes, 42 + each))
                .raw(Arrays.copyOfRange(bytes, 42 + 2 * each, bytes.length))
                .bytes();
        assertEquals(
                "some.flac: frame 1 at byte " + (42 + each)
                        + ": found number 2, expected 1; the recording is damaged there",
                refusal(without));
    }

    @Test
    void wrong_checksums_are_told_with_place_and_both_values() throws IOException {
        byte[] bytes = threeFrames();
        int each = (bytes.length - 42) / 3;
        bytes[42 + 2 * each - 1] ^= 0x21;
        String found = refusal(bytes);
        assertTrue(
                found.matches("some.flac: frame 1 at byte " + (42 + each)
                        + ": checksum found [0-9a-f]{4}, expected [0-9a-f]{4}; the recording is damaged there"),
                found);
        bytes = threeFrames();
        bytes[42 + 7] ^= 1;
        found = refusal(bytes);
        assertTrue(found.matches(".*frame 0 at byte 42: checksum of its header found .., expected ..;.*"), found);
    }

    /** A damaged frame before the last that seems to run on to the end: its successor gives it away. */
    @Test
    void a_frame_that_swallows_the_next_is_damaged_not_cut() throws IOException {
        byte[] bytes = new FlacBytes()
                .header(8000, 1, 16, 0)
                .frame(600, 0, 0)
                .verbatim(16, 1, 2, 3)
                .frame(600, 0, 1)
                .constant(16, 4)
                .sum16()
                .bytes();
        assertTrue(refusal(bytes).contains("frame 0 at byte 42: runs beyond the end"), refusal(bytes));
    }

    @Test
    void nothing_but_zeros_or_ones_behind_a_header_ends_soon() {
        for (int value : new int[] {0, -1}) {
            byte[] much = new byte[20_000_000];
            Arrays.fill(much, (byte) value);
            FlacBytes head = new FlacBytes().header(8000, 1, 16, 0);
            head.frame(65_535, 0, 0).bits(8 << 1, 8).bits(0, 6).bits(0, 4);
            byte[] bytes = head.raw(much).bytes();
            String found = assertTimeoutPreemptively(Duration.ofSeconds(20), () -> refusal(bytes));
            assertTrue(found.contains("byte 42"), found);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void noise_behind_a_sound_frame_header_is_refused(long seed) throws IOException {
        Random random = new Random(seed);
        for (int i = 0; i < 500; i++) {
            int channelCode = random.nextInt(11);
            byte[] noise = new byte[random.nextInt(3000)];
            random.nextBytes(noise);
            int channels = channelCode < 8 ? channelCode + 1 : 2;
            byte[] bytes = new FlacBytes()
                    .header(8000, channels, 4 + random.nextInt(29), 0)
                    .frame(1 + random.nextInt(random.nextBoolean() ? 20 : 5000), channelCode, 0)
                    .bits(random.nextInt(2) * 32L + random.nextInt(32), 7)
                    .bits(0, 1)
                    .raw(noise)
                    .bytes();
            refusal(bytes);
        }
    }

    private static byte[] threeFrames() {
        FlacBytes bytes = new FlacBytes().header(8000, 1, 16, 48);
        for (int frame = 0; frame < 3; frame++) {
            bytes.frame(16, 0, frame)
                    .verbatim(16, 1, 2, 3, 4, 5, 6, 7, 8, 9, 8, 7, 6, 5, 4, 3, 2)
                    .sum16();
        }
        return bytes.bytes();
    }

    private static int blockSize(byte[] bytes) {
        return (bytes[8] & 0xFF) << 8 | bytes[9] & 0xFF;
    }

    private static int firstFrame(byte[] bytes) {
        int at = 4;
        boolean last = false;
        while (!last) {
            last = bytes[at] < 0;
            at += 4 + ((bytes[at + 1] & 0xFF) << 16 | (bytes[at + 2] & 0xFF) << 8 | bytes[at + 3] & 0xFF);
        }
        return at;
    }

    private String refusal(byte[] bytes) {
        return assertThrows(CaptureException.class, () -> FlacBytes.source(folder, bytes))
                .getMessage();
    }
}
