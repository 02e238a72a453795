package org.steadyshaft.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.function.Predicate;

/**
 * A file that the program writes into a folder of results.
 *
 * @param name of the file
 * @param mark tells from its content that the program wrote it
 */
public record OwnFile(String name, Predicate<Path> mark) {
    /** A mark stands in the first of a file's bytes, a page's title and a table's columns among them. */
    private static final int LOOK_BYTES = 16_384;

    /** A file that bears a text near its beginning. */
    public static OwnFile bearing(String name, String mark) {
        return new OwnFile(name, file -> bears(file, mark));
    }

    /** Whether a file bears a text near its beginning; a file that cannot be read bears none. */
    public static boolean bears(Path file, String mark) {
        if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(file)) {
            return new String(in.readNBytes(LOOK_BYTES), StandardCharsets.UTF_8).contains(mark);
        } catch (IOException e) {
            return false;
        }
    }

    /** Whether it may be written into a folder: nothing bears its name, or what does is the program's own or empty. Links are never its own. */
    public boolean isFreeIn(Path folder) {
        Path file = folder.resolve(name);
        if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
            return true;
        }
        try {
            return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS) && (Files.size(file) == 0 || mark.test(file));
        } catch (IOException e) {
            return false;
        }
    }
}
