package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Names and units of the columns, from the lines above a table of numbers.
 *
 * @param names one a column; its number from 1 where no line names it
 * @param units one a column; absent where no line and no name gives it
 * @param remarks from which lines
 */
record TextHeader(List<String> names, List<Optional<String>> units, List<String> remarks) {
    TextHeader {
        names = List.copyOf(names);
        units = List.copyOf(units);
        remarks = List.copyOf(remarks);
    }

    static TextHeader above(TextTable table, List<String> lines) {
        List<String> remarks = new ArrayList<>();
        Optional<List<String>> names = Optional.empty();
        Optional<List<String>> units = Optional.empty();
        for (int i = table.first() - 1; i >= 0; i--) {
            Optional<List<String>> cells = cells(table, uncommented(lines.get(i)));
            if (cells.isPresent() && cells.get().stream().allMatch(c -> c.isEmpty() || isUnit(bare(c)))) {
                if (units.isEmpty()) {
                    units = cells;
                    remarks.add("units from line " + (i + 1));
                }
            } else if (cells.isPresent() && names.isEmpty()) {
                names = cells;
                remarks.add("column names from line " + (i + 1));
            }
        }
        List<String> allNames = new ArrayList<>();
        List<Optional<String>> allUnits = new ArrayList<>();
        for (int c = 0; c < table.columns(); c++) {
            String name = names.isPresent() ? names.get().get(c) : "";
            allNames.add(name.isEmpty() ? Integer.toString(c + 1) : name);
            String unit = units.isPresent() ? bare(units.get().get(c)) : "";
            allUnits.add(unit.isEmpty() ? Units.inName(name) : Optional.of(unit));
        }
        return new TextHeader(allNames, allUnits, remarks);
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
            ways.add(Arrays.asList(line.trim().split("\t+| {2,}")));
            ways.add(Arrays.asList(
                    line.trim().replaceAll("\\s+([(\\[])", "\u0001$1").split("\\s+")));
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
        return cell.replaceAll("[()\\[\\]]", "").trim();
    }

    private static boolean isUnit(String word) {
        return Units.seconds(word).isPresent() || Units.volts(word).isPresent();
    }

    boolean hasTimeUnit(int column) {
        return units.get(column).map(u -> Units.seconds(u).isPresent()).orElse(false);
    }

    boolean hasVoltUnit(int column) {
        return units.get(column).map(u -> Units.volts(u).isPresent()).orElse(false);
    }
}
