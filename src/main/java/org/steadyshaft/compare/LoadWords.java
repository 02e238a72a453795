package org.steadyshaft.compare;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

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

    private static final Pattern BLANKS = Pattern.compile("[-\\u2010-\\u2015_\\s]+");
    private static final Pattern NUMBER_AND_UNIT = Pattern.compile("(?<=\\d)(?=\\p{L})");
    private static final Pattern DECIMAL_COMMA = Pattern.compile("(?<=\\d),(?=\\d)");

    private LoadWords() {}

    /** Whether a word for the load means none. */
    public static boolean isLight(String load) {
        return LIGHT.contains(load) || LIGHT.contains(key(load));
    }

    /** Words that mean the same have the same key: lower case, dashes and underscores as spaces, a space between a number and its unit. */
    static String key(String words) {
        String plain =
                BLANKS.matcher(words.toLowerCase(Locale.ROOT)).replaceAll(" ").strip();
        return DECIMAL_COMMA
                .matcher(NUMBER_AND_UNIT.matcher(plain).replaceAll(" "))
                .replaceAll(".");
    }

    /** The key of a load, one for all that mean none. */
    static String loadKey(String load) {
        return isLight(load) ? NONE : key(load);
    }
}
