package org.steadyshaft.capture;

import com.google.re2j.Matcher;
import com.google.re2j.Pattern;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Units of time, voltage and rate as exports write them, with what turns them into seconds, volts and hertz. */
final class Units {
    private static final Pattern IN_BRACKETS = Pattern.compile("[(\\[{<]\\s*([^)\\]}>]+?)\\s*[)\\]}>]");
    private static final Pattern IN_WORDS = Pattern.compile("(?:\\b(?:in|en)\\b|/|:)\\s*(\\S+)\\s*$");
    private static final Pattern NUMBER_AND_UNIT = Pattern.compile("([-+]?[0-9.,]+(?:[eE][-+]?[0-9]+)?)\\s*(\\S*)");

    private Units() {}

    /** Seconds in a unit of time; empty if the word is none. */
    static OptionalDouble seconds(String word) {
        return find(UnitWords.SECONDS, word);
    }

    /** Volts in a unit of voltage; empty if the word is none. */
    static OptionalDouble volts(String word) {
        return find(UnitWords.VOLTS, word);
    }

    /** Hertz in a unit of rate; empty if the word is none. */
    static OptionalDouble hertz(String word) {
        return find(UnitWords.HERTZ, word);
    }

    private static OptionalDouble find(Map<String, Double> units, String word) {
        String plain = word.trim().toLowerCase(Locale.ROOT);
        Double factor = units.get(plain.endsWith(".") ? plain.substring(0, plain.length() - 1) : plain);
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
