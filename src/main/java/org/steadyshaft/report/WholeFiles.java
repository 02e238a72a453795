package org.steadyshaft.report;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes files that appear whole or not at all: beside their place first, then moved into it. */
public final class WholeFiles {
    /** Writes the content of a file. */
    @FunctionalInterface
    interface Content {
        void writeTo(Writer out) throws IOException;
    }

    /** Makes a file at the place that it is given. */
    @FunctionalInterface
    public interface Making {
        void at(Path part) throws IOException;
    }

    private WholeFiles() {}

    /**
     * Writes a file as UTF-8 with line feeds.
     *
     * @throws IOException if it cannot be written; nothing is left behind then
     */
    static void write(Path file, Content content) throws IOException {
        make(file, part -> {
            try (BufferedWriter out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
                content.writeTo(out);
            }
        });
    }

    /**
     * Makes a file of any kind.
     *
     * @throws IOException if it cannot be made; nothing is left behind then
     */
    public static void make(Path file, Making making) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try {
            Files.createDirectories(file.getParent());
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

    /** Takes away a file of an earlier run that no longer holds. */
    static void remove(Path file) throws IOException {
        Files.deleteIfExists(file);
    }
}
