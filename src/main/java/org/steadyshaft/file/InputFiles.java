package org.steadyshaft.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.util.Optional;

/** What may be read: regular files. A device, a pipe or a socket may give bytes for ever, or none, and is never opened. */
public final class InputFiles {
    /** Settings that people write by hand are far shorter. */
    private static final long LONGEST_TEXT_BYTES = 1 << 20;

    private static final String BYTE_ORDER_MARK = "\uFEFF";
    private static final int BLOCK_BYTES = 1 << 16;

    private InputFiles() {}

    /**
     * Why a file cannot be read; empty if it can be tried. Opens nothing.
     *
     * @param expected what it should be, such as "a recording"
     * @return words that go on behind its name and a colon
     */
    public static Optional<String> problem(Path file, String expected) {
        return found(file).map(found -> found + "; expected " + expected).or(() -> missing(file));
    }

    /** That a file is not there, and the one that was probably meant; empty if it is. */
    public static Optional<String> missing(Path file) {
        return Files.exists(file)
                ? Optional.empty()
                : Optional.of("there is no such file"
                        + NearNames.file(file)
                                .map(near -> "; did you mean '" + near + "'?")
                                .orElse(""));
    }

    private static Optional<String> found(Path file) {
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        if (Files.isDirectory(file)) {
            return Optional.of("is a folder");
        }
        if (!Files.isRegularFile(file)) {
            return Optional.of("is a device, a pipe or a socket");
        }
        try {
            return Files.size(file) == 0 ? Optional.of("is empty") : Optional.empty();
        } catch (IOException e) {
            return Optional.of(Reasons.of(e));
        }
    }

    /**
     * A text file that a user wrote by hand, without the mark that some editors put before it.
     *
     * @throws IOException if it is no such file; the message begins with the file's name
     */
    public static String text(Path file) throws IOException {
        if (Files.isRegularFile(file) && Files.size(file) == 0) {
            return "";
        }
        Optional<String> problem = problem(file, "a text file");
        if (problem.isPresent()) {
            throw new IOException(file + ": " + problem.get());
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes((int) LONGEST_TEXT_BYTES + 1);
            if (bytes.length > LONGEST_TEXT_BYTES) {
                throw new IOException("longer than " + LONGEST_TEXT_BYTES + " bytes; expected a short text file");
            }
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith(BYTE_ORDER_MARK) ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            throw new IOException(file + ": found bytes that are not UTF-8; expected a text file", e);
        } catch (IOException e) {
            throw new IOException(file + ": " + Reasons.of(e), e);
        }
    }

    /**
     * SHA-256 of a regular file's bytes, hexadecimal. One that says it is empty is not opened: the system's own files say so, and some of
     * them never end.
     *
     * @throws IOException if it is none or cannot be read
     */
    public static String sha256(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new IOException("is no regular file");
        }
        if (Files.size(file) == 0) {
            return Digests.sha256("");
        }
        try (DigestInputStream in = new DigestInputStream(Files.newInputStream(file), Digests.sha256())) {
            byte[] block = new byte[BLOCK_BYTES];
            while (in.read(block) >= 0) {
                // the stream makes the digest as it goes
            }
            return Digests.hex(in.getMessageDigest());
        }
    }
}
