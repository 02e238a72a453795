package org.steadyshaft.capture;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.GZIPInputStream;

/** Turns the bytes of a text file into characters: gzip, byte order marks, UTF-8 where it is valid, else Latin-1. */
final class TextBytes {
    private static final int LOOK_BYTES = 1 << 16;

    private TextBytes() {}

    static boolean isGzip(byte[] bytes) {
        return bytes.length >= 2 && (bytes[0] & 0xFF) == 0x1F && (bytes[1] & 0xFF) == 0x8B;
    }

    /** Whether the text begins with the byte order mark of UTF-16. */
    static boolean hasWideMark(byte[] bytes) {
        return bytes.length >= 2
                && ((bytes[0] & 0xFF) == 0xFF && (bytes[1] & 0xFF) == 0xFE
                        || (bytes[0] & 0xFF) == 0xFE && (bytes[1] & 0xFF) == 0xFF);
    }

    /** Opens the text at its first character, the byte order mark left out. */
    static Reader open(Path file) throws IOException {
        InputStream raw = new BufferedInputStream(Files.newInputStream(file), LOOK_BYTES);
        try {
            raw.mark(4);
            byte[] magic = raw.readNBytes(2);
            raw.reset();
            InputStream in = isGzip(magic)
                    ? new BufferedInputStream(
                            new Unpacked(new GZIPInputStream(raw, LOOK_BYTES), Files.size(file)), LOOK_BYTES)
                    : raw;
            in.mark(LOOK_BYTES);
            byte[] start = in.readNBytes(LOOK_BYTES - 1);
            in.reset();
            boolean marked = start.length >= 3
                    && (start[0] & 0xFF) == 0xEF
                    && (start[1] & 0xFF) == 0xBB
                    && (start[2] & 0xFF) == 0xBF;
            in.skipNBytes(marked ? 3 : 0);
            return new InputStreamReader(in, charset(start));
        } catch (IOException | RuntimeException e) {
            raw.close();
            throw e;
        }
    }

    /** The first bytes of a packed file's content. */
    static byte[] unpacked(Path file, int count) throws IOException {
        try (InputStream in = new GZIPInputStream(Files.newInputStream(file))) {
            return in.readNBytes(count);
        }
    }

    private static Charset charset(byte[] start) {
        if (hasWideMark(start)) {
            return StandardCharsets.UTF_16;
        }
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        CoderResult result = decoder.decode(ByteBuffer.wrap(start), CharBuffer.allocate(start.length), false);
        return result.isError() ? StandardCharsets.ISO_8859_1 : StandardCharsets.UTF_8;
    }
}
