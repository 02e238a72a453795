package org.steadyshaft.compare;

import java.util.Locale;
import java.util.Set;

/** What the words of a run sheet mean, whatever their case, spaces and dashes. */
public final class LoadWords {
    /** The word for "no load" in results: none, light, an empty cell and the like are one. */
    public static final String NONE = "none";

    private static final Set<String> LIGHT = Set.of(
            "",
            NONE,
            "light",
            "no load",
            "without load",
            "without a load",
            "without",
            "unloaded",
            "not loaded",
            "nothing",
            "no",
            "nil",
            "n/a",
            "0",
            "0 kg",
            "0 g",
            "0 n m",
            "0 nm",
            "0 w",
            "off",
            "idle",
            "free",
            "bare",
            "empty");

    private LoadWords() {}

    /** Whether a word for the load means none. */
    public static boolean isLight(String load) {
        return LIGHT.contains(key(load));
    }

    /** Words that mean the same have the same key: lower case, dashes and underscores as spaces, a space between a number and its unit. */
    static String key(String words) {
        String plain = words.toLowerCase(Locale.ROOT)
                .replaceAll("[-\\u2010-\\u2015_\\s]+", " ")
                .strip();
        String apart = plain.replaceAll("(?<=\\d)(?=\\p{L})", " ").replaceAll("(?<=\\d),(?=\\d)", ".");
        return apart.isEmpty() ? "" : apart;
    }

    /** The key of a load, one for all that mean none. */
    static String loadKey(String load) {
        return isLight(load) ? NONE : key(load);
    }
}
