package org.steadyshaft.capture;

import com.google.re2j.Pattern;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The time between samples from a line above the numbers such as "Sample Interval,2.0e-5,s" or "sample rate [kHz] = 50".
 *
 * @param seconds between samples; above 0, or NaN where the unit is not known
 * @param unknownUnit the unit that is not known; absent where it is
 * @param remark what the line gave and where it stands
 */
record IntervalLine(double seconds, Optional<String> unknownUnit, String remark) {
    private static final Pattern INTERVAL_KEY = Pattern.compile(
            "(?i)(interval\\w*|intervall\\w*|intervalle|intervalo|increment|inkrement|sampl\\w*[ _-]*period|abtastperiode"
                    + "|p\u00E9riode d.\u00E9chant\\w*|per\u00EDodo de muestreo|periodo di campionamento|\\bdelta[ _-]?t\\b"
                    + "|\\bdelta[ _-]?time|\\bdt\\b|\\btime[ _-]?step|\\b(h|hor\\w*|time|x)[ _.-]?resolution|zeitaufl\u00F6sung"
                    + "|\\btime[ _-]?(per|/)[ _-]?(sample|point)|abtastabstand)");
    private static final Pattern RATE_KEY =
            Pattern.compile("(?i)(sampl\\w*[ _-]*(rate|freq|clock)|^\\W*rate\\b|^\\W*fs\\b|abtastrate|abtastfrequenz"
                    + "|fr\u00E9quence d.\u00E9chant|frecuencia de muestreo|frequenza di campionamento"
                    + "|samples?[ _-]?per[ _-]?sec|bemonsteringsfreq)");
    private static final Pattern VOLTAGE_KEY = Pattern.compile("(?i)(vertical|volt|\\by[ _-]|\\bv[ _.-]?resolution)");
    private static final Pattern UNIT_KEY =
            Pattern.compile("(?i)\\W*(h|hor\\w*|time|x)[ _.-]?(axis[ _-]?)?units?\\w*\\W*");
    private static final Pattern WORD = Pattern.compile("[\\p{L}\u00B5/]+");

    private static final Pattern MARKS = Pattern.compile("[=:;\\t]");
    private static final Pattern MARKS_AND_COMMAS = Pattern.compile("[=:;,\\t]");

    boolean isKnown() {
        return unknownUnit.isEmpty();
    }

    /** The first such line above a table, rather one in a unit that is known. */
    static Optional<IntervalLine> above(TextTable table, List<String> lines) {
        Optional<IntervalLine> unknown = Optional.empty();
        String unitElsewhere = unitOfItsOwnLine(table, lines);
        for (int i = 0; i < table.preambleEnd(); i++) {
            String line = TextHeader.uncommented(lines.get(i)).replace("\"", "");
            for (Pattern marks : List.of(MARKS, MARKS_AND_COMMAS)) {
                Optional<IntervalLine> found = in(marks.split(line), unitElsewhere, i + 1);
                if (found.isPresent() && found.get().isKnown()) {
                    return found;
                }
                unknown = unknown.isPresent() ? unknown : found;
            }
            if (i + 1 < lines.size()) {
                List<String> head = table.cells().split(TextHeader.uncommented(lines.get(i)));
                Optional<IntervalLine> found = below(table, head, lines.get(i + 1), i + 2);
                if (found.isPresent() && head.size() > 1) {
                    return found;
                }
            }
        }
        return unknown;
    }

    /** The unit that a line such as "HUnit,ms" gives to the interval on another line; empty without one. */
    private static String unitOfItsOwnLine(TextTable table, List<String> lines) {
        for (int i = 0; i < table.preambleEnd(); i++) {
            String[] parts =
                    MARKS_AND_COMMAS.split(TextHeader.uncommented(lines.get(i)).replace("\"", ""));
            if (parts.length > 1 && UNIT_KEY.matcher(TextHeader.cut(parts[0])).matches()) {
                return parts[1].trim();
            }
        }
        return "";
    }

    /** Whether a cell of a header announces an interval or a rate. */
    static boolean isKey(String cell) {
        String key = TextHeader.cut(cell);
        return RATE_KEY.matcher(key).find()
                || INTERVAL_KEY.matcher(key).find() && !VOLTAGE_KEY.matcher(key).find();
    }

    /** A header with a cell such as "Increment", whose number stands in the same place of the line below. */
    private static Optional<IntervalLine> below(TextTable table, List<String> head, String values, int lineNumber) {
        List<String> cells = table.cells().split(values);
        for (int c = 0; c < Math.min(head.size(), cells.size()); c++) {
            Optional<IntervalLine> found =
                    isKey(head.get(c)) ? of(head.get(c), cells.get(c), "", "", lineNumber) : Optional.empty();
            if (found.isPresent() && found.get().isKnown()) {
                return found;
            }
        }
        return Optional.empty();
    }

    private static Optional<IntervalLine> in(String[] parts, String unitElsewhere, int lineNumber) {
        String key = parts[0].trim();
        for (int i = 1; i < parts.length && isKey(key); i++) {
            // a word behind the number is its unit, unless a number of its own follows: then it is the next key
            boolean nextIsKey = i + 2 < parts.length
                    && quantity(parts[i + 2]).isPresent()
                    && Units.seconds(parts[i + 1]).isEmpty()
                    && Units.hertz(parts[i + 1]).isEmpty();
            String next = i + 1 < parts.length && !nextIsKey ? parts[i + 1].trim() : "";
            Optional<IntervalLine> found = of(key, parts[i], next, unitElsewhere, lineNumber);
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    /** The interval that a key, the text with its number and the cell after that give; empty if they give none. */
    private static Optional<IntervalLine> of(
            String key, String number, String next, String unitElsewhere, int lineNumber) {
        boolean rate = RATE_KEY.matcher(TextHeader.cut(key)).find();
        Optional<Units.Quantity> quantity = quantity(number);
        if (quantity.isEmpty() || !(quantity.get().value() > 0)) {
            return Optional.empty();
        }
        String given = (rate ? "sample rate" : "interval") + " from line " + lineNumber;
        String unknown = "";
        for (String word : List.of(quantity.get().unit(), next, inKey(key), rate ? "" : unitElsewhere)) {
            OptionalDouble factor = rate ? Units.hertz(word) : Units.seconds(word);
            if (factor.isPresent()) {
                double value = quantity.get().value() * factor.getAsDouble();
                return Optional.of(new IntervalLine(rate ? 1 / value : value, Optional.empty(), given));
            }
            unknown = unknown.isEmpty() && WORD.matcher(word).matches() ? word : unknown;
        }
        double plain = quantity.get().value();
        return Optional.of(
                unknown.isEmpty()
                        ? new IntervalLine(rate ? 1 / plain : plain, Optional.empty(), given)
                        : new IntervalLine(
                                Double.NaN,
                                Optional.of(unknown),
                                given + " in '" + unknown + "', which is no known unit"));
    }

    private static Optional<Units.Quantity> quantity(String part) {
        Optional<Units.Quantity> point = Units.quantity(TextHeader.cut(part), '.');
        return point.isPresent() ? point : Units.quantity(TextHeader.cut(part), ',');
    }

    private static String inKey(String key) {
        return Units.inName(TextHeader.cut(key)).orElse("");
    }
}
