package org.steadyshaft.capture;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;

/** Puts WAV files together chunk by chunk, whole or damaged. */
final class WavBytes {
    private final ByteArrayOutputStream chunks = new ByteArrayOutputStream();
    private String container = "RIFF";
    private String form = "WAVE";

    WavBytes container(String tag) {
        container = tag;
        return this;
    }

    WavBytes form(String tag) {
        form = tag;
        return this;
    }

    /** A chunk with its pad byte. */
    WavBytes chunk(String id, byte... body) {
        chunk(id, body.length, body);
        if (body.length % 2 == 1) {
            chunks.write(0);
        }
        return this;
    }

    /** A chunk whose header claims any size. */
    WavBytes chunk(String id, long claimed, byte... body) {
        chunks.writeBytes(id.getBytes(StandardCharsets.ISO_8859_1));
        chunks.writeBytes(little(4).putInt((int) claimed).array());
        chunks.writeBytes(body);
        return this;
    }

    WavBytes format(int code, int channels, int rate, int bits) {
        return format(code, channels, rate, bits, channels * ((bits + 7) / 8));
    }

    WavBytes format(int code, int channels, int rate, int bits, int blockBytes) {
        return chunk("fmt ", formatBody(16, code, channels, rate, bits, blockBytes));
    }

    private static byte[] formatBody(int length, int code, int channels, int rate, int bits, int blockBytes) {
        return little(length)
                .putShort((short) code)
                .putShort((short) channels)
                .putInt(rate)
                .putInt(rate * blockBytes)
                .putShort((short) blockBytes)
                .putShort((short) bits)
                .array();
    }

    /** The extensible format: code in the first two bytes of the sub-format. */
    WavBytes extensible(int code, int channels, int rate, int bits, int validBits) {
        byte[] body = formatBody(40, 0xFFFE, channels, rate, bits, channels * bits / 8);
        ByteBuffer.wrap(body)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putShort(16, (short) 22)
                .putShort(18, (short) validBits)
                .putInt(20, 3)
                .putShort(24, (short) code)
                .put(26, HexFormat.of().parseHex("000000001000800000aa00389b71"));
        return chunk("fmt ", body);
    }

    /** The sizes of RF64: whole file, samples in bytes, frames. */
    WavBytes sizes(long dataBytes, long frames) {
        byte[] body = little(28)
                .putLong(chunks.size())
                .putLong(dataBytes)
                .putLong(frames)
                .array();
        return chunk("ds64", body);
    }

    byte[] bytes() {
        byte[] body = chunks.toByteArray();
        return little(12 + body.length)
                .put(container.getBytes(StandardCharsets.ISO_8859_1))
                .putInt(body.length + 4)
                .put(form.getBytes(StandardCharsets.ISO_8859_1))
                .put(body)
                .array();
    }

    PcmSource in(Path folder) throws IOException {
        return source(folder, bytes());
    }

    static PcmSource source(Path folder, byte[] bytes) throws IOException {
        Path file = folder.resolve("some.wav");
        Files.write(file, bytes);
        return PcmSource.openWav(file, "some.wav");
    }

    static ByteBuffer little(int bytes) {
        return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    /** 16-bit samples one after the other. */
    static byte[] shorts(int... values) {
        ByteBuffer bytes = little(2 * values.length);
        for (int value : values) {
            bytes.putShort((short) value);
        }
        return bytes.array();
    }
}
