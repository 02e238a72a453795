package org.steadyshaft.file;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.steadyshaft.signal.PlainText;

/** The known word or file that a mistyped one was probably meant to be. */
public final class NearNames {
    /** Folders of more entries are not looked through whole. */
    private static final int MOST_ENTRIES = 10_000;

    /** Two slips for a short word, one for a very short one, and one more for every three characters: common practice, from memory. */
    private static final int CHARACTERS_A_SLIP = 3;

    private static final int SHORT = 3;

    /** Longer words are not compared. */
    private static final int LONGEST = 255;

    private NearNames() {}

    /** The nearest of the known words, case and leading dashes aside; empty if none is near. */
    public static Optional<String> word(String mistyped, Collection<String> known) {
        String word = bare(mistyped);
        if (word.isEmpty() || word.length() > LONGEST) {
            return Optional.empty();
        }
        int most = word.length() < SHORT ? word.length() - 1 : Math.max(2, word.length() / CHARACTERS_A_SLIP);
        LevenshteinDistance distance = new LevenshteinDistance(most);
        return known.stream()
                .filter(other -> other.length() <= LONGEST && distance.apply(word, bare(other)) >= 0)
                .min(Comparator.<String>comparingInt(other -> distance.apply(word, bare(other)))
                        .thenComparingInt(String::length)
                        .thenComparing(Comparator.naturalOrder()));
    }

    private static String bare(String word) {
        String plain = word.toLowerCase(Locale.ROOT);
        return plain.startsWith("-") ? plain.replaceFirst("^-+", "") : plain;
    }

    /** The name of the file or folder that a missing one was probably meant to be, from the same folder; empty if none is near. */
    public static Optional<String> file(Path missing) {
        Path name = missing.getFileName();
        Path folder = missing.toAbsolutePath().getParent();
        if (name == null || folder == null || !Files.isDirectory(folder)) {
            return Optional.empty();
        }
        try (Stream<Path> entries = Files.list(folder)) {
            List<String> known = entries.limit(MOST_ENTRIES)
                    .map(entry -> entry.getFileName().toString())
                    .filter(entry -> !entry.startsWith("."))
                    .toList();
            return word(name.toString(), known).map(PlainText::of);
        } catch (IOException | UncheckedIOException | InvalidPathException e) {
            return Optional.empty();
        }
    }
}
