package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.steadyshaft.signal.PlainText;

/**
 * The headings of a run sheet as the program knows them, by the user's: case, spaces, hyphens and units in brackets do not matter, and other
 * common words for a column are understood. What is nearly a known heading is asked about, since a circuit that is not read as one
 * spoils a comparison without a word.
 */
final class SheetColumns {
    static final String FILE = "file";

    /** Headings that the program knows: those it writes, and those of second channels. */
    private static final Set<String> KNOWN = Stream.concat(
                    RunSheetWriter.COLUMNS.stream(), Stream.of("mains_channel", "gate_channel"))
            .collect(Collectors.toUnmodifiableSet());

    /** Other words for them (common practice). Poles are none: a tacho of sixteen poles has eight pairs. */
    private static final Map<String, String> SYNONYMS = Map.ofEntries(
            Map.entry("filename", FILE),
            Map.entry("file_name", FILE),
            Map.entry("recording", FILE),
            Map.entry("drive", "circuit"),
            Map.entry("drive_circuit", "circuit"),
            Map.entry("version", "variant"),
            Map.entry("revision", "variant"),
            Map.entry("knob", "setting"),
            Map.entry("dial", "setting"),
            Map.entry("set_point", "setting"),
            Map.entry("setpoint", "setting"),
            Map.entry("settings", "setting"),
            Map.entry("loading", "load"),
            Map.entry("polepairs", "pole_pairs"),
            Map.entry("pole_pair", "pole_pairs"),
            Map.entry("pairs_of_poles", "pole_pairs"),
            Map.entry("mains", "mains_hz"),
            Map.entry("mains_frequency", "mains_hz"),
            Map.entry("tacho_channel", "channel"),
            Map.entry("tachometer", "tacho"),
            Map.entry("ratio", "belt_ratio"),
            Map.entry("closed_loop", "loop"),
            Map.entry("day", "date"),
            Map.entry("notes", "note"),
            Map.entry("remark", "note"),
            Map.entry("remarks", "note"),
            Map.entry("comment", "note"),
            Map.entry("comments", "note"));

    private static final int LONG_WORD = 6;

    private final Map<String, String> headings = new LinkedHashMap<>();

    private SheetColumns() {}

    /** The program's name of a heading; the heading itself, in lower case with underscores, where it has none. */
    static String named(String heading) {
        String plain = heading.strip().toLowerCase(Locale.ROOT);
        int bracket = plain.indexOf('(') > 0 ? plain.indexOf('(') : plain.indexOf('[');
        String bare = (bracket > 0 ? plain.substring(0, bracket) : plain).strip();
        StringBuilder joined = new StringBuilder();
        for (String word : bare.replace('-', ' ').replace('_', ' ').split(" ")) {
            joined.append(word.isEmpty() || joined.length() == 0 ? "" : "_").append(word);
        }
        return SYNONYMS.getOrDefault(joined.toString(), joined.toString());
    }

    static boolean isKnown(String name) {
        return KNOWN.contains(name);
    }

    /**
     * Reads the headings of a sheet.
     *
     * @param sheet its name, for messages
     * @param found the headings as they stand there
     * @throws CaptureException if two mean the same, or one is nearly a known one
     */
    static SheetColumns of(String sheet, List<String> found) throws CaptureException {
        SheetColumns columns = new SheetColumns();
        for (String heading : found) {
            String name = named(heading);
            if (name.isEmpty()) {
                continue;
            }
            String kept = isKnown(name) ? name : heading;
            String before = columns.headings.putIfAbsent(kept, heading);
            if (before != null) {
                throw new CaptureException(sheet + ":1: found the columns '" + PlainText.of(before) + "' and '"
                        + PlainText.of(heading) + "', which both mean '" + kept + "'; expected each once");
            }
        }
        for (String heading : found) {
            Optional<String> meant = columns.nearlyKnown(heading);
            if (meant.isPresent()) {
                throw new CaptureException(sheet + ":1: found the column '" + PlainText.of(heading)
                        + "'; did you mean '" + meant.get() + "'? If it is one of your own, give it another name");
            }
        }
        return columns;
    }

    /** A known heading that is not in the sheet and that this one nearly is. */
    private Optional<String> nearlyKnown(String heading) {
        String name = named(heading);
        if (name.isEmpty() || isKnown(name)) {
            return Optional.empty();
        }
        if (name.equals("poles")) {
            return headings.containsKey("pole_pairs") ? Optional.empty() : Optional.of("pole_pairs");
        }
        return KNOWN.stream()
                .filter(known -> !headings.containsKey(known) && isSlip(name, known))
                .min(Comparator.naturalOrder());
    }

    /** A letter too many or too few, two that changed places, or in a long word two slips: another letter makes another short word. */
    private static boolean isSlip(String name, String known) {
        int distance = new LevenshteinDistance(2).apply(name, known);
        boolean sameLetters = Arrays.equals(
                name.chars().sorted().toArray(), known.chars().sorted().toArray());
        return sameLetters
                || distance == 1 && name.length() != known.length()
                || distance >= 0 && Math.min(name.length(), known.length()) >= LONG_WORD;
    }

    boolean has(String name) {
        return headings.containsKey(name);
    }

    /** The heading that stands for a name in the sheet; absent where none does. */
    Optional<String> heading(String name) {
        return Optional.ofNullable(headings.get(name));
    }

    /** The sheet's columns by the program's names, the user's own by their headings. */
    List<String> names() {
        return new ArrayList<>(headings.keySet());
    }
}
