package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.PlainText;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * The values of a scenario file: its own before those of the parts that it uses. Each wrong value is refused with the file's name, the
 * key, what was found and what was expected.
 */
final class ScenarioToml {
    private final String name;

    /** The file's own table first, then its parts in the order in which they are named. */
    private final List<TomlParseResult> tables;

    /** Keys that were looked at: any other in the file is a mistake. */
    private final Set<String> asked = new TreeSet<>();

    ScenarioToml(String name, List<TomlParseResult> tables) {
        this.name = name;
        this.tables = List.copyOf(tables);
    }

    String name() {
        return name;
    }

    Set<String> asked() {
        return asked;
    }

    boolean has(String key) {
        asked.add(key);
        return tables.stream().anyMatch(t -> t.contains(key));
    }

    Object get(String key) {
        asked.add(key);
        return tables.stream()
                .filter(t -> t.contains(key))
                .findFirst()
                .map(t -> t.get(key))
                .orElse(null);
    }

    /** @throws IllegalArgumentException if there is a key that nobody looked at */
    void refuseUnknown() {
        for (TomlParseResult table : tables) {
            for (String key : table.dottedKeySet()) {
                boolean known = asked.stream().anyMatch(a -> key.equals(a) || key.startsWith(a + "."));
                if (!known) {
                    String group = key.substring(0, Math.max(0, key.lastIndexOf('.') + 1));
                    throw wrong(
                            key,
                            "a key that is not known here",
                            asked.stream()
                                    .filter(a -> a.startsWith(group) && a.indexOf('.', group.length()) < 0)
                                    .collect(Collectors.joining(", ")));
                }
            }
        }
    }

    /** Everything that holds, by key. */
    Map<String, Object> all() {
        Map<String, Object> all = new TreeMap<>();
        for (TomlParseResult table : tables) {
            table.dottedKeySet().forEach(key -> all.putIfAbsent(key, plain(table.get(key))));
        }
        return all;
    }

    private static Object plain(Object value) {
        if (value instanceof TomlArray array) {
            return array.toList().stream().map(ScenarioToml::plain).toList();
        }
        if (value instanceof TomlTable table) {
            Map<String, Object> map = new TreeMap<>();
            table.keySet().forEach(key -> map.put(key, plain(table.get(List.of(key)))));
            return map;
        }
        return value;
    }

    boolean flag(String key) {
        Object value = get(key);
        if (value != null && !(value instanceof Boolean)) {
            throw wrong(key, value, "true or false");
        }
        return Boolean.TRUE.equals(value);
    }

    String word(String key) {
        Object value = get(key);
        if (!(value instanceof String text)) {
            throw wrong(key, value, "a text");
        }
        return PlainText.of(text);
    }

    String word(String key, String otherwise) {
        return has(key) ? word(key) : otherwise;
    }

    double number(String key) {
        return number(key, get(key));
    }

    double number(String where, Object value) {
        if (!(value instanceof Number number)) {
            throw wrong(where, value, "a number");
        }
        return number.doubleValue();
    }

    double number(String key, double otherwise) {
        return has(key) ? number(key) : otherwise;
    }

    OptionalDouble optional(String key) {
        return has(key) ? OptionalDouble.of(number(key)) : OptionalDouble.empty();
    }

    DoubleSeries numbers(String key) {
        return has(key) ? series(key, get(key)) : DoubleSeries.EMPTY;
    }

    private DoubleSeries series(String key, Object value) {
        if (!(value instanceof TomlArray array)) {
            throw wrong(key, value, "a row of numbers");
        }
        DoubleSeries.Builder numbers = new DoubleSeries.Builder();
        for (Object entry : array.toList()) {
            numbers.add(number(key, entry));
        }
        return numbers.build();
    }

    List<DoubleSeries> rows(String key, int length) {
        List<DoubleSeries> rows = new ArrayList<>();
        if (has(key)) {
            if (!(get(key) instanceof TomlArray array)) {
                throw wrong(key, get(key), "rows of " + length + " numbers");
            }
            for (Object entry : array.toList()) {
                DoubleSeries row = series(key, entry);
                if (row.size() != length) {
                    throw wrong(key, row.size() + " numbers", "rows of " + length + " numbers");
                }
                rows.add(row);
            }
        }
        return rows;
    }

    /** The tables under a heading in double brackets; none where there are none. */
    List<TomlTable> tables(String key) {
        List<TomlTable> found = new ArrayList<>();
        if (has(key)) {
            if (!(get(key) instanceof TomlArray array)) {
                throw wrong(key, get(key), "tables headed [[" + key + "]]");
            }
            for (int i = 0; i < array.size(); i++) {
                if (!(array.get(i) instanceof TomlTable table)) {
                    throw wrong(key + "[" + (i + 1) + "]", array.get(i), "a table headed [[" + key + "]]");
                }
                found.add(table);
            }
        }
        return found;
    }

    IllegalArgumentException wrong(String key, Object found, String expected) {
        return new IllegalArgumentException(name + ".toml: " + key + ": found "
                + (found == null ? "nothing" : "'" + found + "'") + "; expected " + expected);
    }
}
