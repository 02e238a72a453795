package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** FLAC files with sound checksums that say what cannot be. */
class FlacRefusalTest {
    private static final int FIXED = 8;
    private static final int LINEAR = 32;

    @TempDir
    private Path folder;

    private void assertRefused(FlacBytes bytes, String... parts) {
        CaptureException refused = assertThrows(CaptureException.class, () -> bytes.source(folder));
        String message = refused.getMessage();
        assertTrue(message.startsWith("some.flac: "), message);
        for (String part : parts) {
            assertTrue(message.contains(part), message + "\nlacks: " + part);
        }
    }

    private static FlacBytes info(int leastBlock, int mostBlock, int rate, int sampleBits) {
        return new FlacBytes()
                .mark()
                .block(true, 0, 34)
                .info(leastBlock, mostBlock, rate, 1, sampleBits, 0)
                .frame(16, 0, 0)
                .constant(sampleBits, 0)
                .sum16();
    }

    @ParameterizedTest
    @CsvSource({
        "16, 16, 0, 16, a sample rate of 0 Hz",
        "16, 16, 8000, 3, samples of 3 bits",
        "16, 16, 8000, 1, samples of 1 bits"
    })
    void absurd_stream_info(int leastBlock, int mostBlock, int rate, int sampleBits, String found) {
        assertRefused(info(leastBlock, mostBlock, rate, sampleBits), "header before byte ", found, "expected");
    }

    @Test
    void metadata_out_of_order() {
        assertRefused(new FlacBytes().bits(0x66_4C_61_44, 32).raw(new byte[60]), "byte 0: found bytes 664c6144");
        assertRefused(new FlacBytes().mark().block(false, 4, 34).raw(new byte[34]), "a first block of type 4");
        assertRefused(new FlacBytes().mark().block(false, 0, 18).raw(new byte[34]), "type 0 and 18 bytes");
        FlacBytes twice = new FlacBytes().mark().block(false, 0, 34).info(16, 16, 8000, 1, 16, 0);
        assertRefused(twice.block(true, 0, 34).info(16, 16, 8000, 1, 16, 0), "a block of metadata of type 0");
        FlacBytes never = new FlacBytes().mark().block(false, 0, 34).info(16, 16, 8000, 1, 16, 0);
        assertRefused(never.block(true, 127, 0), "a block of metadata of type 127");
        FlacBytes beyond = new FlacBytes().mark().block(false, 0, 34).info(16, 16, 8000, 1, 16, 0);
        assertRefused(beyond.block(false, 1, 0xFFFFFF), "the file ends", "inside the header");
    }

    @Test
    void no_frames() {
        assertRefused(new FlacBytes().header(8000, 1, 16, 0), "byte 42: found no whole frame");
        assertRefused(new FlacBytes().header(8000, 1, 16, 5), "byte 42: found no whole frame");
        assertRefused(new FlacBytes().header(8000, 1, 16, 0).raw(new byte[40]), "frame 0 at byte 42: found bytes 0000");
    }

    @ParameterizedTest
    @CsvSource({"0, 0, 0, 0", "8, 15, 0, 0", "8, 0, 11, 0", "8, 0, 15, 0", "8, 0, 0, 3"})
    void codes_of_a_frame_without_meaning(int size, int rate, int channel, int bits) {
        FlacBytes bytes = new FlacBytes().header(8000, 1, 16, 0).frame(false, size, rate, channel, bits, 0);
        assertRefused(bytes.sum8().constant(16, 0).sum16(), "frame 0 at byte 42", "a code that has no meaning");
    }

    @Test
    void a_frame_of_another_format_than_the_file() {
        FlacBytes rate = new FlacBytes()
                .header(8000, 1, 16, 0)
                .frame(false, 8, 5, 0, 4, 0)
                .sum8();
        assertRefused(rate.constant(16, 0).sum16(), "found 16000 Hz, 16 bits, 1 channels, expected 8000 Hz, 16 bits");
        FlacBytes bits = new FlacBytes()
                .header(8000, 1, 16, 0)
                .frame(false, 8, 0, 0, 6, 0)
                .sum8();
        assertRefused(bits.constant(24, 0).sum16(), "found 24 bits, 1 channels, expected");
        FlacBytes channels = new FlacBytes().header(8000, 1, 16, 0).frame(16, 1, 0);
        assertRefused(channels.constant(16, 0).constant(16, 0).sum16(), "found 2 channels, expected", "1 channels");
    }

    @Test
    void numbers_and_sizes_that_do_not_follow_on() {
        assertRefused(two(16, false, 1, 16, false, 2), "frame 0 at byte 42: found number 1, expected 0");
        assertRefused(two(16, false, 0, 16, false, 2), "frame 1", "found number 2, expected 1");
        assertRefused(two(16, true, 0, 16, true, 1), "frame 1", "found first sample 1, expected 16");
        assertRefused(two(16, false, 0, 16, true, 16), "frame 1", "a block of variable size");
        FlacBytes shorter =
                two(16, false, 0, 8, false, 1).frame(16, 0, 2).constant(16, 0).sum16();
        assertRefused(shorter, "frame 2", "found it behind a block of 8 samples; expected 16");
    }

    private static FlacBytes two(
            int samples, boolean variable, long number, int secondSamples, boolean secondVariable, long second) {
        FlacBytes bytes = new FlacBytes().header(8000, 1, 16, 0);
        bytes.frame(variable, FlacBytes.SIZE_FOLLOWS, 0, 0, 0, number).bits(samples - 1L, 16);
        bytes.sum8().constant(16, 0).sum16();
        bytes.frame(secondVariable, FlacBytes.SIZE_FOLLOWS, 0, 0, 0, second).bits(secondSamples - 1L, 16);
        return bytes.sum8().constant(16, 0).sum16();
    }

    /** 0x80 begins no number, 0xFF neither, and what follows a first byte has 2 as its upper bits. */
    @ParameterizedTest
    @ValueSource(ints = {0x80, 0xBF, 0xFF, 0xC4})
    void a_number_that_is_none(int first) {
        FlacBytes bytes =
                new FlacBytes().header(8000, 1, 16, 0).bits(0xFFF8, 16).bits(0x8000, 16);
        assertRefused(bytes.bits(first, 8).raw(new byte[20]), "frame 0 at byte 42: found ", "number; expected");
    }

    private static FlacBytes channel(int samples) {
        return new FlacBytes().header(8000, 1, 16, 0).frame(samples, 0, 0);
    }

    @Test
    void channels_that_cannot_be() {
        assertRefused(channel(16).bits(1, 1).bits(0, 7).bits(0, 16).sum16(), "begins with a 1 bit");
        for (int type : new int[] {2, 7, 13, 31}) {
            assertRefused(channel(16).bits(type, 7).bits(0, 600).sum16(), "type " + type + ", which has no meaning");
        }
        assertRefused(channel(16).bits(1, 8).unary(15).bits(0, 300).sum16(), "16 unused bits in samples of 16");
        assertRefused(channel(16).bits(1, 8).unary(40).bits(0, 300).sum16(), "more than 32 zero bits");
        assertRefused(channel(3).bits(FIXED + 4, 7).bits(0, 300).sum16(), "from 4 samples in a block of 3");
        assertRefused(channel(16).bits(LINEAR + 16, 7).bits(0, 600).sum16(), "from 17 samples in a block of 16");
        assertRefused(
                channel(16)
                        .bits(LINEAR, 7)
                        .bits(0, 1)
                        .bits(0, 16)
                        .bits(15, 4)
                        .bits(0, 300)
                        .sum16(),
                "16 bits shifted by 0");
        assertRefused(
                channel(16)
                        .bits(LINEAR, 7)
                        .bits(0, 1)
                        .bits(0, 16)
                        .bits(3, 4)
                        .bits(-1, 5)
                        .bits(0, 99)
                        .sum16(),
                "by -1");
    }

    @Test
    void partitions_that_cannot_be() {
        assertRefused(channel(16).bits(FIXED << 1, 8).bits(2, 2).bits(0, 300).sum16(), "found method 2");
        assertRefused(
                channel(16)
                        .bits(FIXED << 1, 8)
                        .bits(0, 2)
                        .bits(5, 4)
                        .bits(0, 300)
                        .sum16(),
                "32 partitions");
        assertRefused(
                channel(18)
                        .bits(FIXED << 1, 8)
                        .bits(0, 2)
                        .bits(2, 4)
                        .bits(0, 300)
                        .sum16(),
                "4 partitions for 18");
        FlacBytes first = channel(16).bits(FIXED + 4, 7).bits(0, 1).bits(0, 64).bits(0, 2);
        assertRefused(first.bits(3, 4).bits(0, 300).sum16(), "8 partitions for 16 samples predicted from 4");
    }

    @Test
    void samples_beyond_their_bits() throws IOException {
        FlacBytes up = channel(2)
                .bits((FIXED + 1) << 1, 8)
                .bits(32_767, 16)
                .bits(0, 10)
                .unary(2)
                .sum16();
        assertRefused(up, "frame 0 at byte 42: found samples beyond the range of 16 bits");
        FlacBytes low = channel(2)
                .bits((FIXED + 1) << 1, 8)
                .bits(-32_768, 16)
                .bits(0, 10)
                .unary(1)
                .sum16();
        assertRefused(low, "beyond the range of 16 bits");
        FlacBytes down = channel(2)
                .bits((FIXED + 1) << 1, 8)
                .bits(32_767, 16)
                .bits(0, 10)
                .unary(1)
                .sum16();
        assertArrayEquals(new long[][] {{32_767, 32_766}}, FlacBytes.samples(down.source(folder)));
    }

    /** A rate of its own behind the code: thousands in 8 bits, ones or tens in 16; all must agree with the file's. */
    @ParameterizedTest
    @CsvSource({"12, 8, 250, 250000", "13, 16, 12345, 12345", "14, 16, 65535, 655350", "0, 0, 0, 1048575"})
    void rates_behind_their_code(int code, int bits, int value, int rateHz) throws IOException {
        FlacBytes bytes = new FlacBytes().header(rateHz, 1, 16, 1).frame(false, 6, code, 0, 4, 0);
        bytes.bits(0, 8).bits(value, bits).sum8().constant(16, 7).sum16();
        assertEquals(rateHz, bytes.source(folder).sampleRateHz());
    }
}
