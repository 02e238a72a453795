package org.steadyshaft.capture;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

/** Puts FLAC files together bit by bit, whole or damaged; checksums in the plain form, bit by bit. RFC 9639. */
final class FlacBytes {
    /** Code of a block size that follows in 16 bits. */
    static final int SIZE_FOLLOWS = 7;

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private int open;
    private int openBits;
    private int frameFrom;

    /** The lowest bits of a value, the highest of them first. */
    FlacBytes bits(long value, int count) {
        for (int i = count - 1; i >= 0; i--) {
            open = open << 1 | (int) (value >> i & 1);
            if (++openBits == 8) {
                out.write(open);
                open = 0;
                openBits = 0;
            }
        }
        return this;
    }

    FlacBytes unary(long zeros) {
        for (long i = 0; i < zeros; i++) {
            bits(0, 1);
        }
        return bits(1, 1);
    }

    FlacBytes rice(long value, int low) {
        long folded = value << 1 ^ value >> 63;
        return unary(folded >>> low).bits(folded, low);
    }

    FlacBytes raw(byte... bytes) {
        out.writeBytes(bytes);
        return this;
    }

    FlacBytes mark() {
        return bits(0x664C6143, 32);
    }

    /** The mark and a STREAMINFO that is the last block, without MD5. */
    FlacBytes header(int rate, int channels, int sampleBits, long samples) {
        return mark().block(true, 0, 34).info(16, 65_535, rate, channels, sampleBits, samples);
    }

    /** The head of a block of metadata. */
    FlacBytes block(boolean last, int type, int length) {
        return bits(last ? 1 : 0, 1).bits(type, 7).bits(length, 24);
    }

    /** What STREAMINFO says. */
    FlacBytes info(int leastBlock, int mostBlock, int rate, int channels, int sampleBits, long samples) {
        bits(leastBlock, 16).bits(mostBlock, 16).bits(0, 48);
        bits(rate, 20).bits(channels - 1L, 3).bits(sampleBits - 1L, 5).bits(samples, 36);
        return raw(new byte[16]);
    }

    /** Mark and codes of a frame; what the codes leave to the end of the header is to follow, then {@link #sum8()}. */
    FlacBytes frame(boolean variable, int sizeCode, int rateCode, int channelCode, int bitsCode, long number) {
        frameFrom = out.size();
        bits(0x7FFC, 15).bits(variable ? 1 : 0, 1).bits(sizeCode, 4).bits(rateCode, 4);
        return bits(channelCode, 4).bits(bitsCode, 3).bits(0, 1).number(number);
    }

    /** The header of a frame of a fixed size that leaves rate and bits to the header of the file. */
    FlacBytes frame(int samples, int channelCode, long number) {
        return frame(false, SIZE_FOLLOWS, 0, channelCode, 0, number)
                .bits(samples - 1L, 16)
                .sum8();
    }

    private FlacBytes number(long number) {
        if (number < 0x80) {
            return bits(number, 8);
        }
        int bytes = 2;
        while (number >> 5 * bytes + 1 != 0) {
            bytes++;
        }
        bits(0xFF00 >> bytes | number >> 6 * (bytes - 1), 8);
        for (int i = bytes - 2; i >= 0; i--) {
            bits(0x80 | number >> 6 * i & 0x3F, 8);
        }
        return this;
    }

    FlacBytes sum8() {
        return bits(sum(8, 0x07), 8);
    }

    /** Fills up the last byte and ends the frame with its checksum. */
    FlacBytes sum16() {
        while (openBits > 0) {
            bits(0, 1);
        }
        return bits(sum(16, 0x8005), 16);
    }

    private int sum(int width, int polynomial) {
        int sum = 0;
        byte[] all = out.toByteArray();
        for (byte next : Arrays.copyOfRange(all, frameFrom, all.length)) {
            for (int i = 7; i >= 0; i--) {
                int top = sum >> width - 1 ^ next >> i & 1;
                sum = (sum << 1 ^ (top & 1) * polynomial) & (1 << width) - 1;
            }
        }
        return sum;
    }

    /** A channel as its samples are. */
    FlacBytes verbatim(int sampleBits, long... samples) {
        bits(1 << 1, 8);
        for (long sample : samples) {
            bits(sample, sampleBits);
        }
        return this;
    }

    /** A channel of one value. */
    FlacBytes constant(int sampleBits, long value) {
        return bits(0, 8).bits(value, sampleBits);
    }

    byte[] bytes() {
        return out.toByteArray();
    }

    FlacSource source(Path folder) throws IOException {
        return source(folder, bytes());
    }

    static FlacSource source(Path folder, byte[] bytes) throws IOException {
        Path file = folder.resolve("some.flac");
        Files.write(file, bytes);
        return FlacSource.open(file, "some.flac");
    }

    /** Raw samples, channel by channel: full scale is half the range of the bits. */
    static long[][] samples(FlacSource source) throws IOException {
        double[][] read = ReadBack.all(source, 1000);
        double step = source.format().step().orElseThrow();
        long[][] samples = new long[read.length][];
        for (int c = 0; c < read.length; c++) {
            samples[c] =
                    Arrays.stream(read[c]).mapToLong(v -> (long) (v / step)).toArray();
        }
        return samples;
    }
}
