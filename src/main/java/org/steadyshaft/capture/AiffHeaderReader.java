package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.steadyshaft.signal.PlainText;

/**
 * Walks the chunks of an AIFF or AIFF-C file. Layout: Audio Interchange File Format, version 1.3 (1989), and its extension for
 * compressed data (1991, from memory), of which the uncompressed kinds are read.
 */
final class AiffHeaderReader {
    private static final Set<String> LITTLE_ENDIAN = Set.of("sowt");
    private static final Set<String> BIG_ENDIAN = Set.of("NONE", "twos", "in24", "in32");
    private static final Set<String> FLOAT_32 = Set.of("fl32", "FL32");
    private static final Set<String> FLOAT_64 = Set.of("fl64", "FL64");
    private static final int MOST_CHANNELS = 64;
    private static final int MOST_CHUNKS = 10_000;
    private static final double HIGHEST_RATE_HZ = 1e8;

    private final ChunkBytes chunks;
    private final String name;
    private final long fileBytes;
    private final List<String> remarks = new ArrayList<>();
    private ByteBuffer common;
    private long dataOffset = -1;
    private long dataBytes;

    AiffHeaderReader(FileChannel file, String name) throws IOException {
        this.chunks = new ChunkBytes(file, name);
        this.name = name;
        this.fileBytes = file.size();
    }

    PcmHeader read() throws IOException {
        ByteBuffer form = chunks.bytes(0, 12, "the FORM header", ByteOrder.BIG_ENDIAN);
        String kind = ChunkBytes.tag(form, 8);
        if (!kind.equals("AIFF") && !kind.equals("AIFC")) {
            throw new CaptureException(
                    name + ": byte 8: found form '" + PlainText.of(kind) + "'; expected 'AIFF' or 'AIFC'");
        }
        long at = 12;
        for (int chunk = 0; chunk < MOST_CHUNKS && at + 8 <= fileBytes; chunk++) {
            ByteBuffer head = chunks.bytes(at, 8, "a chunk header", ByteOrder.BIG_ENDIAN);
            long size = Integer.toUnsignedLong(head.getInt(4));
            switch (ChunkBytes.tag(head, 0)) {
                case "COMM" ->
                    common = chunks.bytes(at + 8, (int) Math.min(size, 22), "the COMM chunk", ByteOrder.BIG_ENDIAN);
                case "SSND" -> samplesAt(at, size);
                default -> {
                    // names, markers and the like
                }
            }
            at += 8 + size + (size & 1);
        }
        return header(kind);
    }

    /** The sound data chunk begins with an offset into its data and a block size. */
    private void samplesAt(long at, long size) throws IOException {
        ByteBuffer start = chunks.bytes(at + 8, 8, "the SSND chunk", ByteOrder.BIG_ENDIAN);
        long offset = Integer.toUnsignedLong(start.getInt(0));
        dataOffset = at + 16 + offset;
        dataBytes = size - 8 - offset;
        if (size == 0 || dataOffset + dataBytes > fileBytes) {
            remarks.add(
                    "The header promises more samples than the file holds: its end is missing. What is there was used.");
            dataBytes = fileBytes - dataOffset;
        }
    }

    private PcmHeader header(String kind) throws CaptureException {
        if (common == null || common.limit() < 18 || kind.equals("AIFC") && common.limit() < 22) {
            throw new CaptureException(
                    name + ": no whole COMM chunk in " + fileBytes + " bytes; cannot tell what it holds");
        }
        int channels = Short.toUnsignedInt(common.getShort(0));
        int bits = Short.toUnsignedInt(common.getShort(6));
        byte[] rateBytes = new byte[ExtendedRate.BYTES];
        common.get(8, rateBytes);
        double rate = ExtendedRate.hz(rateBytes);
        if (channels < 1 || channels > MOST_CHANNELS || !(rate >= 1 && rate <= HIGHEST_RATE_HZ)) {
            throw new CaptureException(name + ": COMM chunk: found " + channels + " channels and a sample rate of "
                    + rate + " Hz; expected 1 to " + MOST_CHANNELS + " channels and 1 to 1e8 Hz");
        }
        String code = kind.equals("AIFC") ? ChunkBytes.tag(common, 18) : "NONE";
        PcmEncoding encoding = encoding(code, bits);
        int frameBytes = channels * encoding.bytes();
        long frames = dataOffset < 0 ? 0 : Math.max(0, dataBytes) / frameBytes;
        long promised = Integer.toUnsignedLong(common.getInt(2));
        if (promised > 0 && promised < frames) {
            frames = promised;
        }
        if (frames == 0) {
            throw new CaptureException(name + ": the file holds no samples");
        }
        return new PcmHeader(
                kind.equals("AIFC") ? "AIFF-C" : "AIFF",
                LITTLE_ENDIAN.contains(code) ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN,
                encoding,
                bits,
                channels,
                rate,
                frameBytes,
                dataOffset,
                frames,
                remarks);
    }

    private PcmEncoding encoding(String code, int bits) throws CaptureException {
        boolean plain = BIG_ENDIAN.contains(code) || LITTLE_ENDIAN.contains(code);
        if (plain && bits >= 1 && bits <= 32) {
            return switch ((bits + 7) / 8) {
                case 1 -> PcmEncoding.SIGNED_8;
                case 2 -> PcmEncoding.SIGNED_16;
                case 3 -> PcmEncoding.SIGNED_24;
                default -> PcmEncoding.SIGNED_32;
            };
        }
        if (FLOAT_32.contains(code)) {
            return PcmEncoding.FLOAT_32;
        }
        if (FLOAT_64.contains(code)) {
            return PcmEncoding.FLOAT_64;
        }
        throw new CaptureException(name + ": samples are coded as '" + PlainText.of(code) + "' with " + bits
                + " bits; expected plain samples of 1 to 32 bits or float");
    }
}
