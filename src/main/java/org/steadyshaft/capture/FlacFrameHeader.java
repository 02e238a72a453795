package org.steadyshaft.capture;

import java.io.IOException;

/**
 * The header of a frame. Source: RFC 9639 section 9.1.
 *
 * @param variable whether blocks may differ in size; then {@code number} counts samples, else frames
 * @param samples samples in each channel, 1 to 65536
 * @param sampleRateHz samples a second; 0 where the header of the file tells
 * @param channels number of channels
 * @param stereo how they were mixed
 * @param bits bits of a sample; 0 where the header of the file tells
 * @param number of this frame, or of its first sample
 */
record FlacFrameHeader(
        boolean variable, int samples, long sampleRateHz, int channels, FlacStereo stereo, int bits, long number) {
    static final int MOST_SAMPLES = 65_536;

    private static final int MARK_BITS = 15;
    private static final int MARK = 0x7FFC;
    private static final int[] RATE_HZ = {
        0, 88_200, 176_400, 192_000, 8000, 16_000, 22_050, 24_000, 32_000, 44_100, 48_000, 96_000
    };
    private static final int RESERVED = -1;
    private static final int[] SAMPLE_BITS = {0, 8, 12, RESERVED, 16, 20, 24, 32};

    /** Whether a frame may begin here. */
    static boolean isNext(FlacBits in) throws IOException {
        return in.peek(MARK_BITS) == MARK;
    }

    /**
     * Reads the header of the frame that begins here.
     *
     * @throws CaptureException if there is none or it is damaged
     */
    static FlacFrameHeader read(FlacBits in) throws IOException {
        if (!isNext(in)) {
            throw in.damaged(String.format(
                    "found bytes %04x, expected fff8 or fff9 as at the beginning of a frame", in.peek(16)));
        }
        in.unsigned(MARK_BITS);
        boolean variable = in.unsigned(1) == 1;
        int sizeCode = (int) in.unsigned(4);
        int rateCode = (int) in.unsigned(4);
        int channelCode = (int) in.unsigned(4);
        int bits = SAMPLE_BITS[(int) in.unsigned(3)];
        boolean reserved = in.unsigned(1) == 1;
        if (sizeCode == 0 || rateCode == 15 || channelCode > 10 || bits == RESERVED || reserved) {
            throw in.damaged(String.format(
                    "found a header with a code that has no meaning (%x for the size, %x for the rate, %x for the"
                            + " channels)",
                    sizeCode, rateCode, channelCode));
        }
        long number = number(in);
        int samples = samples(in, sizeCode);
        long rate = rate(in, rateCode);
        checkSum(in);
        int channels = channelCode < 8 ? channelCode + 1 : 2;
        FlacStereo stereo = channelCode < 8 ? FlacStereo.INDEPENDENT : FlacStereo.values()[channelCode - 7];
        return new FlacFrameHeader(variable, samples, rate, channels, stereo, bits, number);
    }

    /** Up to 36 bits in one to seven bytes, coded as UTF-8 codes characters. */
    private static long number(FlacBits in) throws IOException {
        int first = (int) in.unsigned(8);
        int bytes = Integer.numberOfLeadingZeros(~(first << 24));
        if (bytes == 1 || bytes == 8) {
            throw in.damaged(String.format("found %02x as the first byte of its number; expected 00-7f, c0-fe", first));
        }
        long number = first & 0x7F >> bytes;
        for (int i = 1; i < bytes; i++) {
            int next = (int) in.unsigned(8);
            if (next >> 6 != 2) {
                throw in.damaged(String.format("found %02x inside its number; expected 80-bf", next));
            }
            number = number << 6 | next & 0x3F;
        }
        return number;
    }

    private static int samples(FlacBits in, int code) throws IOException {
        return switch (code) {
            case 1 -> 192;
            case 2, 3, 4, 5 -> 144 << code;
            case 6 -> (int) in.unsigned(8) + 1;
            case 7 -> (int) in.unsigned(16) + 1;
            default -> 1 << code;
        };
    }

    private static long rate(FlacBits in, int code) throws IOException {
        return switch (code) {
            case 12 -> 1000 * in.unsigned(8);
            case 13 -> in.unsigned(16);
            case 14 -> 10 * in.unsigned(16);
            default -> RATE_HZ[code];
        };
    }

    private static void checkSum(FlacBits in) throws IOException {
        int expected = in.headerSum();
        int found = (int) in.unsigned(8);
        if (found != expected) {
            throw in.damaged(String.format("checksum of its header found %02x, expected %02x", found, expected));
        }
    }
}
