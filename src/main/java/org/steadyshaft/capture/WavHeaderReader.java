package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steadyshaft.signal.PlainText;

/**
 * Walks the chunks of a RIFF, RIFX or RF64 WAVE file up to the samples. Layout: IBM and Microsoft, Multimedia Programming
 * Interface and Data Specifications 1.0 (1991); extensible format: Microsoft (2001); RF64: EBU Tech 3306 (2009).
 */
final class WavHeaderReader {
    private static final int PCM = 1;
    private static final int IEEE_FLOAT = 3;
    private static final int EXTENSIBLE = 0xFFFE;
    private static final long UNKNOWN_SIZE = 0xFFFFFFFFL;
    static final long HIGHEST_RATE_HZ = 100_000_000;
    static final int MOST_CHANNELS = 64;
    private static final int MOST_CHUNKS = 10_000;

    /** Names of codes that are refused, by their number in the format chunk. */
    private static final Map<Integer, String> REFUSED = Map.of(
            2,
            "ADPCM",
            6,
            "A-law",
            7,
            "mu-law",
            0x11,
            "IMA ADPCM",
            0x31,
            "GSM 6.10",
            0x50,
            "MPEG",
            0x55,
            "MPEG layer 3");

    private final ChunkBytes chunks;
    private final String name;
    private final long fileBytes;
    private final List<String> remarks = new ArrayList<>();
    private long wideDataBytes = -1;
    private ByteBuffer format;
    private ByteOrder order = ByteOrder.LITTLE_ENDIAN;

    WavHeaderReader(FileChannel file, String name) throws IOException {
        this.chunks = new ChunkBytes(file, name);
        this.name = name;
        this.fileBytes = file.size();
    }

    PcmHeader read() throws IOException {
        ByteBuffer riff = chunks.bytes(0, 12, "the RIFF header", ByteOrder.LITTLE_ENDIAN);
        String container = ChunkBytes.tag(riff, 0);
        order = container.equals("RIFX") ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
        if (!ChunkBytes.tag(riff, 8).equals("WAVE")) {
            throw new CaptureException(name + ": byte 8: found RIFF form '" + PlainText.of(ChunkBytes.tag(riff, 8))
                    + "'; expected 'WAVE'");
        }
        long at = 12;
        for (int chunk = 0; chunk < MOST_CHUNKS && at + 8 <= fileBytes; chunk++) {
            ByteBuffer head = chunks.bytes(at, 8, "a chunk header", order);
            String id = ChunkBytes.tag(head, 0);
            long size = Integer.toUnsignedLong(head.getInt(4));
            if (id.equals("data")) {
                return header(container, at + 8, size);
            }
            if (id.equals("fmt ")) {
                format = chunks.bytes(at + 8, (int) Math.min(size, 40), "the format chunk", order);
            } else if (id.equals("ds64") && size >= 24) {
                wideDataBytes =
                        chunks.bytes(at + 8, 24, "the ds64 chunk", order).getLong(8);
            }
            at += 8 + size + (size & 1);
        }
        throw new CaptureException(
                name + ": no data chunk in " + fileBytes + " bytes; expected one after the format chunk");
    }

    private PcmHeader header(String container, long dataOffset, long size) throws CaptureException {
        if (format == null || format.limit() < 16) {
            throw new CaptureException(name + ": byte " + (dataOffset - 8)
                    + ": the samples come before a format chunk of 16 bytes or more; cannot tell what they are");
        }
        int channels = Short.toUnsignedInt(format.getShort(2));
        long rate = Integer.toUnsignedLong(format.getInt(4));
        int frameBytes = Short.toUnsignedInt(format.getShort(12));
        int bits = Short.toUnsignedInt(format.getShort(14));
        check("channels", channels, 1, MOST_CHANNELS);
        check("sample rate", rate, 1, HIGHEST_RATE_HZ);
        PcmEncoding encoding = encoding(bits);
        if (frameBytes != channels * encoding.bytes()) {
            throw new CaptureException(name + ": format chunk: block size of " + frameBytes + " bytes; expected "
                    + channels * encoding.bytes() + " for " + channels + " channels of " + encoding.title());
        }
        long frames = dataBytes(size, dataOffset) / frameBytes;
        if (frames == 0) {
            throw new CaptureException(name + ": the data chunk holds no samples");
        }
        return new PcmHeader(
                container.equals("RIFF") ? "WAV" : "WAV " + container,
                order,
                encoding,
                validBits(bits),
                channels,
                rate,
                frameBytes,
                dataOffset,
                frames,
                remarks);
    }

    private void check(String what, long found, long least, long most) throws CaptureException {
        if (found < least || found > most) {
            throw new CaptureException(
                    name + ": format chunk: found " + found + " " + what + "; expected " + least + " to " + most);
        }
    }

    private PcmEncoding encoding(int bits) throws CaptureException {
        int code = Short.toUnsignedInt(format.getShort(0));
        if (code == EXTENSIBLE && format.limit() >= 26) {
            code = Short.toUnsignedInt(format.getShort(24));
        }
        if (code == PCM && bits >= 1 && bits <= 32) {
            return switch ((bits + 7) / 8) {
                case 1 -> PcmEncoding.UNSIGNED_8;
                case 2 -> PcmEncoding.SIGNED_16;
                case 3 -> PcmEncoding.SIGNED_24;
                default -> PcmEncoding.SIGNED_32;
            };
        }
        if (code == IEEE_FLOAT && (bits == 32 || bits == 64)) {
            return bits == 32 ? PcmEncoding.FLOAT_32 : PcmEncoding.FLOAT_64;
        }
        String found = code == PCM ? "PCM" : code == IEEE_FLOAT ? "float" : REFUSED.getOrDefault(code, "unknown");
        throw new CaptureException(name + ": samples are coded as " + found + " (code " + code + ", " + bits
                + " bits); expected PCM of 8 to 32 bits or float of 32 or 64");
    }

    private int validBits(int bits) {
        boolean extensible = Short.toUnsignedInt(format.getShort(0)) == EXTENSIBLE && format.limit() >= 20;
        int valid = extensible ? Short.toUnsignedInt(format.getShort(18)) : bits;
        return valid >= 1 && valid <= bits ? valid : bits;
    }

    /** The bytes of samples that are really there; a header that promises more gets a remark. */
    private long dataBytes(long size, long dataOffset) {
        long there = fileBytes - dataOffset;
        long promised = size == UNKNOWN_SIZE && wideDataBytes >= 0 ? wideDataBytes : size;
        if (promised == 0 || promised == UNKNOWN_SIZE) {
            remarks.add("The header does not say how long the recording is (the recorder was stopped before it could"
                    + " write that); everything up to the end of the file was taken.");
            return there;
        }
        if (promised > there) {
            remarks.add("The header promises " + promised + " bytes of samples, the file holds " + there
                    + ": its end is missing. What is there was used.");
            return there;
        }
        return promised;
    }
}
