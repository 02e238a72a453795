package org.steadyshaft.report;

import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/**
 * Names of the folders that hold a capture's results: the file's name without its ending, reduced to plain letters,
 * digits, dot, dash and underscore, so that no name can leave the output folder and every system can hold it, and made unique.
 */
public final class CaptureNames {
    private static final int LONGEST = 80;

    /**
     * Names of devices, which some systems take for those whatever the ending behind them. Source: Microsoft, "Naming Files, Paths, and
     * Namespaces", section "Naming conventions"; from memory.
     */
    private static final Pattern DEVICE =
            Pattern.compile("(con|prn|aux|nul|(com|lpt)[0-9])([.].*)?", Pattern.CASE_INSENSITIVE);

    /** Endings of files that are not finished. */
    private static final String UNFINISHED = ".part";

    private final Set<String> taken = new HashSet<>(ResultFiles.reserved());
    private final Predicate<String> free;

    /** @param free whether results may be written into a folder of that name */
    public CaptureNames(Predicate<String> free) {
        this.free = free;
    }

    /** Names in an output folder of its own. */
    public CaptureNames() {
        this(name -> true);
    }

    /** A fresh name for a file. */
    public String nameFor(String file) {
        String last = file.substring(Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')) + 1);
        String base = last.toLowerCase(Locale.ROOT).endsWith(".gz") ? last.substring(0, last.length() - 3) : last;
        int dot = base.lastIndexOf('.');
        String name = plain(dot > 0 ? base.substring(0, dot) : base);
        String unique = name;
        for (int i = 2; !taken.add(unique.toLowerCase(Locale.ROOT)) || !free.test(unique); i++) {
            unique = name + "-" + i;
        }
        return unique;
    }

    private static String plain(String base) {
        String clean = base.replaceAll("[^A-Za-z0-9._-]", "_");
        String inside = clean.replaceAll("^[.]+", "_").replaceAll("[.]+$", "_");
        String name = inside.isEmpty() ? "capture" : inside.substring(0, Math.min(LONGEST, inside.length()));
        boolean special = DEVICE.matcher(name).matches()
                || name.toLowerCase(Locale.ROOT).endsWith(UNFINISHED)
                || name.endsWith(".");
        return special ? "_" + name.replaceAll("[.]([^.]*)$", "_$1") : name;
    }
}
