package org.steadyshaft.compare;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.signal.PlainText;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/** Reads what kinds of work need: a TOML file with a table for each. Errors say where, what was found and what was expected. */
public final class LimitsReader {
    /** Smallest blip that counts. */
    private static final String BLIP_PERCENT = "blip_percent";

    /** Turns of the motor for one of the driven wheel: the speeds are then the wheel's. */
    private static final String BELT_RATIO = "belt_ratio";

    private static final Set<String> OTHER_KEYS = Set.of("title", "speed_rpm", "load", BLIP_PERCENT, BELT_RATIO);

    /** How the parser words most of what it does not like. */
    private static final Pattern UNEXPECTED = Pattern.compile("Unexpected (.*), expected (.*)", Pattern.DOTALL);

    private final String file;

    private LimitsReader(String file) {
        this.file = file;
    }

    /** The starting points that come with the program. */
    public static List<Work> startingPoints() {
        try (InputStream in = LimitsReader.class.getResourceAsStream("limits.toml")) {
            return new LimitsReader("limits.toml").works(Toml.parse(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Reads a file.
     *
     * @throws IOException if it cannot be read or holds what it should not; the message is for the user
     */
    public static List<Work> read(Path path) throws IOException {
        return new LimitsReader(PlainText.of(path.toString())).works(Toml.parse(InputFiles.text(path)));
    }

    private List<Work> works(TomlParseResult parsed) throws IOException {
        if (parsed.hasErrors()) {
            TomlParseError error = parsed.errors().get(0);
            Matcher unexpected = UNEXPECTED.matcher(error.getMessage());
            throw at(
                    error.position().line(),
                    unexpected.matches()
                            ? "found " + unexpected.group(1) + "; expected " + unexpected.group(2)
                            : error.getMessage() + "; expected TOML");
        }
        List<Work> works = new ArrayList<>();
        for (String name : inOrder(parsed)) {
            if (name.isBlank()) {
                throw at(line(parsed, name), "found a table without a name; expected one such as [throwing-clay]");
            }
            if (!(parsed.get(List.of(name)) instanceof TomlTable table)) {
                throw wrong(parsed, name, "a table for each kind of work, such as [throwing-clay]");
            }
            works.add(work(parsed, name, table));
        }
        if (works.isEmpty()) {
            throw new IOException(file + ": found no kind of work; expected a table such as [throwing-clay]");
        }
        return works;
    }

    /** The tables in the order of the file: the user puts the most important work first. */
    private static List<String> inOrder(TomlTable parsed) {
        return parsed.keySet().stream()
                .sorted(Comparator.comparingInt(
                        name -> parsed.inputPositionOf(List.of(name)).line()))
                .toList();
    }

    private Work work(TomlTable parsed, String name, TomlTable table) throws IOException {
        Map<Measure, Double> most = new EnumMap<>(Measure.class);
        for (String key : table.keySet()) {
            if (!OTHER_KEYS.contains(key)) {
                most.put(measure(table, key), number(table, key));
            }
        }
        if (most.isEmpty()) {
            throw at(line(parsed, name), "[" + name + "] limits nothing; expected at least one of " + keys());
        }
        if (table.contains(List.of(BLIP_PERCENT)) && !most.containsKey(Measure.BLIPS)) {
            throw at(
                    line(table, BLIP_PERCENT),
                    BLIP_PERCENT + ": found without a limit for the rate; expected " + Measure.BLIPS.limitKey()
                            + " beside it");
        }
        double[] speeds = speeds(parsed, name, table);
        OptionalDouble ratio = optional(table, BELT_RATIO);
        if (ratio.isPresent() && !(ratio.getAsDouble() > 0)) {
            throw wrong(table, BELT_RATIO, "turns of the motor for one of the driven wheel, above 0");
        }
        double factor = ratio.orElse(1);
        return new Work(
                PlainText.of(name),
                word(table, "title", name),
                speeds[0] * factor,
                speeds[1] * factor,
                loads(table),
                most,
                optional(table, BLIP_PERCENT),
                ratio);
    }

    private OptionalDouble optional(TomlTable table, String key) throws IOException {
        return table.contains(List.of(key)) ? OptionalDouble.of(number(table, key)) : OptionalDouble.empty();
    }

    /** One word, or several in brackets. */
    private List<String> loads(TomlTable table) throws IOException {
        String key = "load";
        if (!(table.get(List.of(key)) instanceof TomlArray array)) {
            return table.contains(List.of(key)) ? List.of(word(table, key, "")) : List.of();
        }
        List<String> loads = new ArrayList<>();
        for (Object element : array.toList()) {
            if (!(element instanceof String load) || load.isBlank()) {
                throw wrong(table, key, "words in quotes, such as [\"none\", \"2 kg clay\"]");
            }
            loads.add(PlainText.of(load));
        }
        if (loads.isEmpty()) {
            throw wrong(table, key, "at least one word; leave it out for all loads");
        }
        return loads;
    }

    private Measure measure(TomlTable table, String key) throws IOException {
        for (Measure measure : Measure.values()) {
            if (measure.limitKey().equals(key)) {
                return measure;
            }
        }
        throw wrong(table, key, "one of title, speed_rpm, load, belt_ratio, blip_percent, " + keys());
    }

    private static String keys() {
        StringBuilder keys = new StringBuilder();
        for (Measure measure : Measure.values()) {
            keys.append(keys.length() == 0 ? "" : ", ").append(measure.limitKey());
        }
        return keys.toString();
    }

    private double[] speeds(TomlTable parsed, String name, TomlTable table) throws IOException {
        if (!table.contains(List.of("speed_rpm"))) {
            throw at(line(parsed, name), "[" + name + "] has no speed_rpm; expected speed_rpm = [lowest, highest]");
        }
        boolean two = table.get(List.of("speed_rpm")) instanceof TomlArray array
                && array.size() == 2
                && array.get(0) instanceof Number
                && array.get(1) instanceof Number;
        if (!two) {
            throw wrong(table, "speed_rpm", "two numbers, [lowest, highest]");
        }
        TomlArray array = (TomlArray) table.get(List.of("speed_rpm"));
        double from = ((Number) array.get(0)).doubleValue();
        double to = ((Number) array.get(1)).doubleValue();
        if (!(from > 0) || !(to > from) || !Double.isFinite(to)) {
            throw wrong(table, "speed_rpm", "two speeds above 0, the lower first");
        }
        return new double[] {from, to};
    }

    private double number(TomlTable table, String key) throws IOException {
        if (table.get(List.of(key)) instanceof Number number
                && number.doubleValue() >= 0
                && Double.isFinite(number.doubleValue())) {
            return number.doubleValue();
        }
        throw wrong(table, key, "a number from 0 on");
    }

    private String word(TomlTable table, String key, String usual) throws IOException {
        if (!table.contains(List.of(key))) {
            return usual;
        }
        if (table.get(List.of(key)) instanceof String word && !word.isBlank()) {
            return PlainText.of(word);
        }
        throw wrong(table, key, "words in quotes");
    }

    private IOException wrong(TomlTable table, String key, String expected) {
        return at(line(table, key), key + ": found " + words(table.get(List.of(key))) + "; expected " + expected);
    }

    private static int line(TomlTable table, String key) {
        return table.inputPositionOf(List.of(key)).line();
    }

    private IOException at(int line, String message) {
        return new IOException(file + ":" + line + ": " + PlainText.of(message));
    }

    /** A value about as the file has it. */
    private static String words(Object value) {
        if (value instanceof TomlArray array) {
            return array.toList().stream().map(LimitsReader::words).collect(Collectors.joining(", ", "[", "]"));
        }
        if (value instanceof TomlTable table) {
            return table.keySet().stream()
                    .map(key -> key + " = " + words(table.get(List.of(key))))
                    .collect(Collectors.joining(", ", "{", "}"));
        }
        return value instanceof String word ? "'" + word + "'" : String.valueOf(value);
    }
}
