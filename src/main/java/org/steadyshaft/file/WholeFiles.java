package org.steadyshaft.file;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.DigestOutputStream;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Writes files that appear whole or not at all: beside their place first, under a name that no other run has and no file bears yet, then
 * moved into it. A link that stands in the place is never followed.
 */
public final class WholeFiles {
    /** How the names of unfinished files begin and end: {@link OutputFolder} clears away those of a run that was killed. */
    static final String PART_BEGIN = ".steadyshaft-";

    static final String PART_END = ".part";

    private static final AtomicLong COUNT = new AtomicLong();

    /** Writes the content of a file. */
    @FunctionalInterface
    public interface Content {
        void writeTo(Writer out) throws IOException;
    }

    /** Makes a file at the place that it is given, where an empty one waits. */
    @FunctionalInterface
    public interface Making {
        void at(Path part) throws IOException;
    }

    private WholeFiles() {}

    /**
     * Writes a file as UTF-8 with line feeds.
     *
     * @return SHA-256 of what was written, hexadecimal
     * @throws IOException if it cannot be written; nothing is left behind then
     */
    public static String write(Path file, Content content) throws IOException {
        String[] digest = new String[1];
        make(file, part -> {
            DigestOutputStream bytes = new DigestOutputStream(Files.newOutputStream(part), Digests.sha256());
            try (BufferedWriter out = new BufferedWriter(new OutputStreamWriter(bytes, StandardCharsets.UTF_8))) {
                content.writeTo(out);
            }
            digest[0] = Digests.hex(bytes.getMessageDigest());
        });
        return digest[0];
    }

    /**
     * Makes a file of any kind.
     *
     * @throws IOException if it cannot be made; nothing is left behind then
     */
    public static void make(Path file, Making making) throws IOException {
        Files.createDirectories(file.toAbsolutePath().getParent());
        Path part = file.resolveSibling(
                PART_BEGIN + ProcessHandle.current().pid() + "-" + COUNT.incrementAndGet() + PART_END);
        Files.createFile(part);
        try {
            making.at(part);
            try {
                Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
            }
        } finally {
            Files.deleteIfExists(part);
        }
    }

    /** Takes away a file of an earlier run that no longer holds; a link is taken away itself, not what it leads to. */
    public static void remove(Path file) throws IOException {
        Files.deleteIfExists(file);
    }
}
