package org.steadyshaft.capture;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.signal.SampleSource;

/** Opens any file that holds a recording; what it is, is told by its content, never by its name. */
public final class Recordings {
    private static final int MAGIC_BYTES = 12;

    private Recordings() {}

    /**
     * Opens a recording.
     *
     * @param name what to call it in messages: the name as the user gave it
     * @throws CaptureException if it is no recording this program can read, with the reason
     */
    public static SampleSource open(Path file, String name, ReadOptions options) throws CaptureException {
        try {
            Optional<String> problem = InputFiles.problem(file, "a recording");
            if (problem.isPresent()) {
                throw new CaptureException(name + ": " + problem.get());
            }
            byte[] magic = firstBytes(file);
            if (TextBytes.isGzip(magic) && Magic.of(TextBytes.unpacked(file, MAGIC_BYTES)) != Magic.TEXT) {
                throw new CaptureException(
                        name + ": a packed file that holds no text; expected packed text, or WAV unpacked");
            }
            return switch (Magic.of(magic)) {
                case WAV -> PcmSource.openWav(file, name);
                case AIFF -> PcmSource.openAiff(file, name);
                case FLAC -> FlacSource.open(file, name);
                case OTHER_BINARY ->
                    throw new CaptureException(
                            name + ": holds no recording that can be read (it begins" + " with the bytes " + hex(magic)
                                    + "); expected WAV, AIFF, FLAC, or text as a scope exports it");
                case TEXT -> TextSource.open(file, name, options).orEdges();
            };
        } catch (AccessDeniedException e) {
            throw new CaptureException(name + ": may not be read: permission denied", e);
        } catch (CaptureException e) {
            throw e;
        } catch (IOException e) {
            throw new CaptureException(name + ": cannot be read: " + Reasons.of(e), e);
        }
    }

    private static byte[] firstBytes(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return in.readNBytes(MAGIC_BYTES);
        }
    }

    private enum Magic {
        WAV,
        AIFF,
        FLAC,
        TEXT,
        OTHER_BINARY;

        static Magic of(byte[] bytes) {
            String text = new String(bytes, StandardCharsets.ISO_8859_1);
            if (text.startsWith("RIFF") || text.startsWith("RF64") || text.startsWith("RIFX")) {
                return WAV;
            }
            if (text.startsWith("FORM")) {
                return AIFF;
            }
            if (text.startsWith("fLaC") || text.startsWith("ID3")) {
                return FLAC;
            }
            if (TextBytes.isGzip(bytes) || TextBytes.hasWideMark(bytes)) {
                return TEXT;
            }
            return text.chars().anyMatch(Magic::neverInText) ? OTHER_BINARY : TEXT;
        }

        private static boolean neverInText(int c) {
            return c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 0x1A;
        }
    }

    private static String hex(byte[] bytes) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(4, bytes.length); i++) {
            text.append(i == 0 ? "" : " ").append(String.format("%02X", bytes[i] & 0xFF));
        }
        return text.toString();
    }
}
