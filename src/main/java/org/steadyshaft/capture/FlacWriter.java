package org.steadyshaft.capture;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * Writes a source of full scale 1 as FLAC of 16 or 24 bits: fixed predictors and Rice codes by parts, nothing lost but what the
 * bits lose. What is beyond full scale is clipped, as a recorder would. Source: RFC 9639.
 */
public final class FlacWriter {
    private static final int BLOCK_SAMPLES = 4096;
    private static final int INFO_BYTES = 34;
    private static final int HEADER_BYTES = 4 + 4 + INFO_BYTES;
    private static final int HIGHEST_RATE = (1 << 20) - 1;
    private static final int MOST_CHANNELS = 8;

    /** Codes of the frame header (RFC 9639 section 9.1): blocks of 4,096 samples; length in 16 bits behind the number. */
    private static final int WHOLE_BLOCK_CODE = 0b1100;

    private static final int OTHER_BLOCK_CODE = 0b0111;
    private static final int BITS_16_CODE = 0b100;
    private static final int BITS_24_CODE = 0b110;

    /** Fourteen bits of sync, a zero, and a zero for blocks of one size. */
    private static final int SYNC = 0xFFF8;

    private final int bits;

    /** @param bits 16 or 24 */
    public FlacWriter(int bits) {
        PcmSteps.check(bits);
        this.bits = bits;
    }

    /**
     * Writes a recording.
     *
     * @throws IOException if the file cannot be written, or the format does not hold the rate or the channels
     */
    public void write(SampleSource source, Path file) throws IOException {
        long rate = Math.round(source.sampleRateHz());
        if (rate < 1 || rate > HIGHEST_RATE || rate != source.sampleRateHz() || source.channels() > MOST_CHANNELS) {
            throw new IOException(file + ": " + source.sampleRateHz() + " Hz, " + source.channels()
                    + " channels; FLAC holds whole rates up to " + HIGHEST_RATE + " Hz and " + MOST_CHANNELS
                    + " channels");
        }
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16);
                BlockReader reader = source.open();
                FileChannel again = FileChannel.open(file, StandardOpenOption.WRITE)) {
            Stream stream = new Stream(source.channels(), (int) rate);
            stream.write(reader, out);
            out.flush();
            // how long it became and the digest are known only now
            ByteBuffer header = stream.header();
            while (header.hasRemaining()) {
                again.write(header, header.position());
            }
        }
    }

    private final class Stream {
        private final int rate;
        private final MessageDigest digest = md5();
        private final FlacBitWriter frame = new FlacBitWriter();
        private final FlacResidual residual = new FlacResidual(BLOCK_SAMPLES);
        private final int[][] block;
        private int smallestFrame = (1 << 24) - 1;
        private int largestFrame;
        private long samples;

        Stream(int channels, int rate) {
            this.block = new int[channels][BLOCK_SAMPLES];
            this.rate = rate;
        }

        void write(BlockReader reader, OutputStream out) throws IOException {
            out.write(new byte[HEADER_BYTES]);
            double[][] read = new double[block.length][BLOCK_SAMPLES];
            int filled = 0;
            int number = 0;
            for (int count = reader.read(read); count > 0; count = reader.read(read)) {
                for (int i = 0; i < count; i++) {
                    for (int c = 0; c < block.length; c++) {
                        block[c][filled] = PcmSteps.of(read[c][i], bits);
                    }
                    if (++filled == BLOCK_SAMPLES) {
                        frame(number++, filled, out);
                        filled = 0;
                    }
                }
            }
            if (filled > 0) {
                frame(number, filled, out);
            }
        }

        private void frame(int number, int count, OutputStream out) throws IOException {
            frame.clear();
            frame.put(SYNC, 16);
            frame.put(count == BLOCK_SAMPLES ? WHOLE_BLOCK_CODE : OTHER_BLOCK_CODE, 4);
            frame.put(0, 4);
            frame.put(block.length - 1, 4);
            frame.put(bits == 16 ? BITS_16_CODE : BITS_24_CODE, 3);
            frame.put(0, 1);
            putNumber(number);
            if (count != BLOCK_SAMPLES) {
                frame.put(count - 1, 16);
            }
            frame.put(FlacSums.crc8(frame.bytes(), 0, frame.length()), 8);
            for (int[] channel : block) {
                residual.write(channel, count, bits, frame);
            }
            frame.align();
            frame.put(FlacSums.crc16(0, frame.bytes(), 0, frame.length()), 16);
            out.write(frame.bytes(), 0, frame.length());
            smallestFrame = Math.min(smallestFrame, frame.length());
            largestFrame = Math.max(largestFrame, frame.length());
            samples += count;
            digestBlock(count);
        }

        /** The frame's number in the way of UTF-8, one to six bytes (RFC 9639 section 9.1.5). */
        private void putNumber(int number) {
            if (number < 0x80) {
                frame.put(number, 8);
                return;
            }
            int more = 1;
            while (number >= 1 << 5 * more + 6) {
                more++;
            }
            frame.put(0xFF00 >> more + 1 & 0xFF | number >> 6 * more, 8);
            for (int k = more - 1; k >= 0; k--) {
                frame.put(0x80 | number >> 6 * k & 0x3F, 8);
            }
        }

        /** The digest is that of the samples, lowest byte first, channel by channel. */
        private void digestBlock(int count) {
            byte[] bytes = new byte[count * block.length * bits / 8];
            int at = 0;
            for (int i = 0; i < count; i++) {
                for (int[] channel : block) {
                    for (int shift = 0; shift < bits; shift += 8) {
                        bytes[at++] = (byte) (channel[i] >> shift);
                    }
                }
            }
            digest.update(bytes);
        }

        /** Marker and stream information (RFC 9639 section 8.2). */
        ByteBuffer header() {
            FlacBitWriter info = new FlacBitWriter();
            info.put(0x664C6143, 32);
            info.put(0x80, 8);
            info.put(INFO_BYTES, 24);
            info.put(BLOCK_SAMPLES, 16);
            info.put(BLOCK_SAMPLES, 16);
            info.put(Math.min(smallestFrame, largestFrame), 24);
            info.put(largestFrame, 24);
            info.put(rate, 20);
            info.put(block.length - 1, 3);
            info.put(bits - 1, 5);
            info.put(samples >> 32, 4);
            info.put(samples, 32);
            for (byte b : digest.digest()) {
                info.put(b, 8);
            }
            return ByteBuffer.wrap(info.bytes(), 0, info.length());
        }
    }

    private static MessageDigest md5() {
        try {
            return MessageDigest.getInstance("MD5");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has MD5", e);
        }
    }
}
