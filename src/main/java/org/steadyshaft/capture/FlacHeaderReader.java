package org.steadyshaft.capture;

import java.io.EOFException;
import java.io.IOException;
import java.util.HexFormat;

/** Reads the metadata up to the first frame; only STREAMINFO is used. Layout: RFC 9639 section 8. */
final class FlacHeaderReader {
    private static final int MARK = 0x664C6143;
    private static final int ID3 = 0x494433;
    private static final int STREAM_INFO = 0;
    private static final int STREAM_INFO_BYTES = 34;
    private static final int NEVER_A_BLOCK = 127;
    private static final int FEWEST_BITS = 4;

    private final FlacBits bits;
    private final String name;

    FlacHeaderReader(FlacBits bits, String name) {
        this.bits = bits;
        this.name = name;
    }

    /**
     * Reads up to the first frame.
     *
     * @throws CaptureException if the header is damaged or makes no sense
     */
    FlacHeader read() throws IOException {
        try {
            skipTags();
            long at = bits.byteAt();
            long mark = bits.unsigned(32);
            if (mark != MARK) {
                throw new CaptureException(name + ": byte " + at + ": found bytes "
                        + HexFormat.of().toHexDigits((int) mark) + "; expected the mark of FLAC, 664c6143");
            }
            return blocks();
        } catch (EOFException e) {
            throw new CaptureException(name + ": the file ends at byte " + bits.byteAt()
                    + " inside the header; expected it to go on with frames of samples");
        }
    }

    /** Tags that players put before the mark: ID3 version 2, the size in four groups of seven bits. */
    private void skipTags() throws IOException {
        while (bits.peek(24) == ID3) {
            bits.unsigned(40);
            boolean footer = (bits.unsigned(8) & 0x10) != 0;
            long size = 0;
            for (int i = 0; i < 4; i++) {
                size = size << 7 | bits.unsigned(8) & 0x7F;
            }
            bits.moveTo(bits.byteAt() + size + (footer ? 10 : 0));
        }
    }

    private FlacHeader blocks() throws IOException {
        boolean last = bits.unsigned(1) == 1;
        long type = bits.unsigned(7);
        long length = bits.unsigned(24);
        if (type != STREAM_INFO || length != STREAM_INFO_BYTES) {
            throw refused(
                    "a first block of type " + type + " and " + length + " bytes",
                    "type " + STREAM_INFO + " and " + STREAM_INFO_BYTES + " bytes");
        }
        FlacHeader header = streamInfo();
        while (!last) {
            last = bits.unsigned(1) == 1;
            type = bits.unsigned(7);
            if (type == STREAM_INFO || type == NEVER_A_BLOCK) {
                throw refused("a block of metadata of type " + type, "another type there");
            }
            length = bits.unsigned(24);
            bits.moveTo(bits.byteAt() + length);
        }
        return new FlacHeader(
                header.sampleRateHz(),
                header.channels(),
                header.bits(),
                header.blocksDiffer(),
                header.promisedSamples(),
                header.md5(),
                bits.byteAt());
    }

    private FlacHeader streamInfo() throws IOException {
        // some encoders leave these at 0 or turn them round; every frame tells its own size, so nothing hangs on them
        long leastBlock = bits.unsigned(16);
        long mostBlock = bits.unsigned(16);
        bits.unsigned(48);
        int rate = (int) bits.unsigned(20);
        if (rate == 0) {
            throw refused("a sample rate of 0 Hz", "1 to 1048575 Hz");
        }
        int channels = (int) bits.unsigned(3) + 1;
        int sampleBits = (int) bits.unsigned(5) + 1;
        if (sampleBits < FEWEST_BITS) {
            throw refused("samples of " + sampleBits + " bits", "4 to 32 bits");
        }
        long samples = bits.unsigned(36);
        StringBuilder md5 = new StringBuilder();
        for (int i = 0; i < 16; i++) {
            md5.append(HexFormat.of().toHexDigits((byte) bits.unsigned(8)));
        }
        boolean given = md5.chars().anyMatch(c -> c != '0');
        return new FlacHeader(
                rate, channels, sampleBits, leastBlock != mostBlock, samples, given ? md5.toString() : "", 0);
    }

    private CaptureException refused(String found, String expected) {
        return new CaptureException(
                name + ": the header before byte " + bits.byteAt() + ": found " + found + "; expected " + expected);
    }
}
