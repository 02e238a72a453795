package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/**
 * The time between samples from a line above the numbers such as "Sample Interval,2.0e-5,s" or "sample rate [kHz] = 50".
 *
 * @param seconds between samples; above 0
 * @param remark what the line gave and where it stands
 */
record IntervalLine(double seconds, String remark) {
    private static final Pattern INTERVAL_KEY = Pattern.compile(
            "(?i).*(interval|increment|sampl\\w*[ _-]*period|\\bdelta[ _-]?t\\b|\\bdelta[ _-]?time|\\bdt\\b|\\btime[ _-]?step).*");
    private static final Pattern RATE_KEY =
            Pattern.compile("(?i)(.*sampl\\w*[ _-]*(rate|freq\\w*|clock).*|\\W*rate\\b.*|\\W*fs\\b.*)");
    private static final Pattern VOLTAGE_KEY = Pattern.compile("(?i).*(vertical|volt|\\by[ _-]).*");

    /** The first such line above a table. */
    static Optional<IntervalLine> above(TextTable table, List<String> lines) {
        for (int i = 0; i < table.first(); i++) {
            String line = TextHeader.uncommented(lines.get(i)).replace("\"", "");
            for (String marks : List.of("[=:;\\t]", "[=:;,\\t]")) {
                Optional<IntervalLine> found = in(line.split(marks), i + 1);
                if (found.isPresent()) {
                    return found;
                }
            }
            if (i + 1 < lines.size()) {
                List<String> head = table.cells().split(TextHeader.uncommented(lines.get(i)));
                Optional<IntervalLine> found = below(table, head, lines.get(i + 1), i + 2);
                if (found.isPresent() && head.size() > 1) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }

    /** Whether a cell of a header announces an interval or a rate. */
    static boolean isKey(String cell) {
        return RATE_KEY.matcher(cell).matches()
                || INTERVAL_KEY.matcher(cell).matches()
                        && !VOLTAGE_KEY.matcher(cell).matches();
    }

    /** A header with a cell such as "Increment", whose number stands in the same place of the line below. */
    private static Optional<IntervalLine> below(TextTable table, List<String> head, String values, int lineNumber) {
        List<String> cells = table.cells().split(values);
        for (int c = 0; c < Math.min(head.size(), cells.size()); c++) {
            Optional<IntervalLine> found =
                    isKey(head.get(c)) ? of(head.get(c), cells.get(c), "", lineNumber) : Optional.empty();
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    private static Optional<IntervalLine> in(String[] parts, int lineNumber) {
        String key = parts[0].trim();
        for (int i = 1; i < parts.length && isKey(key); i++) {
            Optional<IntervalLine> found =
                    of(key, parts[i], i + 1 < parts.length ? parts[i + 1].trim() : "", lineNumber);
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    /** The interval that a key, the text with its number and the cell after that give; empty if they give none. */
    private static Optional<IntervalLine> of(String key, String number, String next, int lineNumber) {
        boolean rate = RATE_KEY.matcher(key).matches();
        Optional<Units.Quantity> quantity = quantity(number);
        OptionalDouble seconds = quantity.isPresent()
                ? seconds(quantity.get(), List.of(quantity.get().unit(), next, inKey(key)), rate)
                : OptionalDouble.empty();
        return seconds.isPresent()
                ? Optional.of(new IntervalLine(
                        seconds.getAsDouble(), (rate ? "sample rate" : "interval") + " from line " + lineNumber))
                : Optional.empty();
    }

    private static Optional<Units.Quantity> quantity(String part) {
        Optional<Units.Quantity> point = Units.quantity(part, '.');
        return point.isPresent() ? point : Units.quantity(part, ',');
    }

    private static String inKey(String key) {
        return Units.inName(key).orElse("");
    }

    /** With the first of the words that is a unit of the right sort; plain seconds or hertz where none is a word at all. */
    private static OptionalDouble seconds(Units.Quantity quantity, List<String> words, boolean rate) {
        List<Double> factors = new ArrayList<>();
        for (String word : words) {
            String unit = word.toLowerCase(Locale.ROOT);
            OptionalDouble factor = rate ? Units.hertz(unit) : Units.seconds(unit);
            factor.ifPresent(factors::add);
        }
        if (factors.isEmpty() && !quantity.unit().isEmpty()) {
            return OptionalDouble.empty();
        }
        double value = quantity.value() * (factors.isEmpty() ? 1 : factors.get(0));
        if (!(value > 0)) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(rate ? 1 / value : value);
    }
}
