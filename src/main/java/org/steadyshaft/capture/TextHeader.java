package org.steadyshaft.capture;

import com.google.re2j.Pattern;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Names and units of the columns, from the lines above a table of numbers.
 *
 * @param columns one a column
 * @param remarks from which lines
 */
record TextHeader(List<TextColumn> columns, List<String> remarks) {
    TextHeader {
        columns = List.copyOf(columns);
        remarks = List.copyOf(remarks);
    }

    /** Longer cells above a table are looked at so far: no unit, name or key stands behind. */
    private static final int MOST_CHARACTERS = 500;

    private static final Pattern WIDE_BLANKS = Pattern.compile("\t+| {2,}");
    private static final Pattern BLANKS = Pattern.compile("\\s+");
    private static final Pattern BEFORE_BRACKET = Pattern.compile("\\s+([(\\[])");
    private static final Pattern BRACKETS = Pattern.compile("[()\\[\\]]");

    /** As much of a cell as is looked at. */
    static String cut(String cell) {
        return cell.length() <= MOST_CHARACTERS ? cell : cell.substring(0, MOST_CHARACTERS);
    }

    static TextHeader above(TextTable table, List<String> lines) {
        List<String> remarks = new ArrayList<>();
        Optional<List<String>> names = Optional.empty();
        Optional<List<String>> units = Optional.empty();
        for (int i = table.first() - 1; i >= 0; i--) {
            Optional<List<String>> cells = cells(table, uncommented(lines.get(i)));
            if (cells.isEmpty()) {
                continue;
            }
            if (units.isEmpty() && names.isEmpty() && areUnits(cells.get(), table, lines, i)) {
                units = cells;
                remarks.add("units from line " + (i + 1));
            } else if (names.isEmpty()) {
                names = cells;
                remarks.add("column names from line " + (i + 1));
            }
        }
        List<TextColumn> columns = new ArrayList<>();
        for (int c = 0; c < table.columns(); c++) {
            columns.add(TextColumn.of(
                    names.isPresent() ? names.get().get(c) : "",
                    c + 1,
                    units.isPresent() ? bare(units.get().get(c)) : ""));
        }
        return new TextHeader(columns, remarks);
    }

    /**
     * Units stand below the names: all of them known, or at least one where a line above names a column of times. So a
     * unit that is not known keeps its place beside those that are.
     */
    private static boolean areUnits(List<String> cells, TextTable table, List<String> lines, int line) {
        long filled = cells.stream().filter(c -> !c.isEmpty()).count();
        long known = cells.stream().filter(c -> isUnit(bare(c))).count();
        if (known == 0 || known == filled) {
            return known > 0;
        }
        boolean namesAbove = false;
        for (int i = line - 1; i >= 0 && !namesAbove; i--) {
            Optional<List<String>> above = cells(table, uncommented(lines.get(i)));
            namesAbove = above.isPresent()
                    && above.get().stream()
                            .anyMatch(
                                    c -> !c.isEmpty() && TextColumn.of(c, 1, "").saysTime());
        }
        return namesAbove;
    }

    /** A line above the numbers without the mark of a comment. */
    static String uncommented(String line) {
        String text = line.strip();
        while (text.startsWith("#") || text.startsWith("%") || text.startsWith("//")) {
            text = text.substring(text.startsWith("//") ? 2 : 1).strip();
        }
        return text;
    }

    /** The line's cells if there is one for every column; where blanks separate, names may hold blanks of their own. */
    private static Optional<List<String>> cells(TextTable table, String line) {
        List<List<String>> ways =
                new ArrayList<>(List.of(padded(narrowed(table.cells().split(line), table.columns()), table.columns())));
        if (table.cells().separator() == ' ') {
            ways.add(Arrays.asList(WIDE_BLANKS.split(line.trim())));
            ways.add(Arrays.asList(
                    BLANKS.split(BEFORE_BRACKET.matcher(line.trim()).replaceAll("\u0001$1"))));
        }
        for (List<String> way : ways) {
            boolean named = way.stream().anyMatch(c -> !c.isBlank());
            boolean key = table.columns() == 1 && way.size() == 1 && way.get(0).contains(":");
            if (way.size() == table.columns() && named && !key) {
                return Optional.of(
                        way.stream().map(c -> c.replace('\u0001', ' ').trim()).toList());
            }
        }
        return Optional.empty();
    }

    /**
     * The first cells of a wider header that goes on with words of its own, such as start and increment; a narrower one is
     * padded by {@link #padded}.
     */
    private static List<String> narrowed(List<String> cells, int columns) {
        boolean more = cells.size() > columns
                && cells.subList(columns, cells.size()).stream().anyMatch(c -> IntervalLine.isKey(c));
        return more ? cells.subList(0, columns) : cells;
    }

    /** Empty cells at the end of a line are left out when it is split; names for all but the last columns are names too. */
    private static List<String> padded(List<String> cells, int columns) {
        List<String> all = new ArrayList<>(cells);
        if (cells.size() > 1 && cells.size() == columns - 1) {
            all.add("");
        }
        return all;
    }

    private static String bare(String cell) {
        return BRACKETS.matcher(cut(cell)).replaceAll("").trim();
    }

    private static boolean isUnit(String word) {
        return Units.seconds(word).isPresent() || Units.volts(word).isPresent();
    }

    String name(int column) {
        return columns.get(column).name();
    }

    TextColumn.Says says(int column) {
        return columns.get(column).says();
    }
}
