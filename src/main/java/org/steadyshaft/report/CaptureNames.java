package org.steadyshaft.report;

import java.util.Collection;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/**
 * Names of the folders that hold a capture's results: the file's name without its ending, reduced to plain letters,
 * digits, dot, dash and underscore, so that no name can leave the output folder and every system can hold it, and made unique.
 */
public final class CaptureNames {
    private static final int LONGEST = 80;

    private final Set<String> taken =
            new HashSet<>(Set.of("index.html", "summary.csv", "comparison.html", "comparison.json"));

    /** @param reserved names in the output folder that must not be used, such as folders that hold recordings */
    public CaptureNames(Collection<String> reserved) {
        reserved.forEach(name -> taken.add(name.toLowerCase(Locale.ROOT)));
    }

    /** Names in an output folder of its own. */
    public CaptureNames() {
        this(Set.of());
    }

    /** A fresh name for a file. */
    public String nameFor(String file) {
        String last = file.substring(Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')) + 1);
        String base = last.toLowerCase(Locale.ROOT).endsWith(".gz") ? last.substring(0, last.length() - 3) : last;
        int dot = base.lastIndexOf('.');
        String clean = (dot > 0 ? base.substring(0, dot) : base).replaceAll("[^A-Za-z0-9._-]", "_");
        String plain = clean.replaceAll("^[.]+", "_").replaceAll("[.]+$", "_");
        String name = plain.isEmpty() ? "capture" : plain.substring(0, Math.min(LONGEST, plain.length()));
        String unique = name;
        for (int i = 2; !taken.add(unique.toLowerCase(Locale.ROOT)); i++) {
            unique = name + "-" + i;
        }
        return unique;
    }
}
