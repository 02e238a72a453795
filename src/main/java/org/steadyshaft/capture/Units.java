package org.steadyshaft.capture;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Units of time, voltage and rate as exports write them, with what turns them into seconds, volts and hertz. */
final class Units {
    private static final Map<String, Double> SECONDS = Map.ofEntries(
            Map.entry("s", 1.0),
            Map.entry("sec", 1.0),
            Map.entry("second", 1.0),
            Map.entry("seconds", 1.0),
            Map.entry("ms", 1e-3),
            Map.entry("millisecond", 1e-3),
            Map.entry("milliseconds", 1e-3),
            Map.entry("us", 1e-6),
            Map.entry("\u00B5s", 1e-6),
            Map.entry("\u03BCs", 1e-6),
            Map.entry("microseconds", 1e-6),
            Map.entry("ns", 1e-9));

    private static final Map<String, Double> VOLTS = Map.ofEntries(
            Map.entry("v", 1.0),
            Map.entry("volt", 1.0),
            Map.entry("volts", 1.0),
            Map.entry("mv", 1e-3),
            Map.entry("millivolt", 1e-3),
            Map.entry("uv", 1e-6),
            Map.entry("\u00B5v", 1e-6),
            Map.entry("\u03BCv", 1e-6),
            Map.entry("kv", 1e3));

    private static final Map<String, Double> HERTZ = Map.ofEntries(
            Map.entry("hz", 1.0),
            Map.entry("khz", 1e3),
            Map.entry("mhz", 1e6),
            Map.entry("sa/s", 1.0),
            Map.entry("s/s", 1.0),
            Map.entry("ksa/s", 1e3),
            Map.entry("ks/s", 1e3),
            Map.entry("msa/s", 1e6),
            Map.entry("ms/s", 1e6),
            Map.entry("samples/s", 1.0));

    private static final Pattern IN_BRACKETS = Pattern.compile("[(\\[]\\s*([^)\\]]+?)\\s*[)\\]]");
    private static final Pattern IN_WORDS = Pattern.compile("(?:\\bin\\b|/|:)\\s*(\\S+)\\s*$");
    private static final Pattern NUMBER_AND_UNIT = Pattern.compile("([-+]?[0-9.,]+(?:[eE][-+]?[0-9]+)?)\\s*(\\S*)");

    private Units() {}

    /** Seconds in a unit of time; empty if the word is none. */
    static OptionalDouble seconds(String word) {
        return find(SECONDS, word);
    }

    /** Volts in a unit of voltage; empty if the word is none. */
    static OptionalDouble volts(String word) {
        return find(VOLTS, word);
    }

    /** Hertz in a unit of rate; empty if the word is none. */
    static OptionalDouble hertz(String word) {
        return find(HERTZ, word);
    }

    private static OptionalDouble find(Map<String, Double> units, String word) {
        Double factor = units.get(word.trim().toLowerCase(Locale.ROOT));
        return factor == null ? OptionalDouble.empty() : OptionalDouble.of(factor);
    }

    /** The unit in a column's name: in brackets, after "in", a slash or a colon. */
    static Optional<String> inName(String columnName) {
        Matcher brackets = IN_BRACKETS.matcher(columnName);
        if (brackets.find()) {
            return Optional.of(brackets.group(1));
        }
        Matcher words = IN_WORDS.matcher(columnName);
        return words.find() ? Optional.of(words.group(1)) : Optional.empty();
    }

    /** A number with its unit, such as "20.00uS" or "48000". */
    record Quantity(double value, String unit) {}

    static Optional<Quantity> quantity(String text, char decimalMark) {
        Matcher matcher = NUMBER_AND_UNIT.matcher(text.trim());
        if (!matcher.matches()) {
            return Optional.empty();
        }
        OptionalDouble value = new Cells(';', decimalMark).number(matcher.group(1));
        return value.isPresent() ? Optional.of(new Quantity(value.getAsDouble(), matcher.group(2))) : Optional.empty();
    }
}
