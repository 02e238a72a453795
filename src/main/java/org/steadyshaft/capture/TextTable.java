package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The rows of numbers in the first lines of a text export.
 *
 * @param cells how a line falls into cells
 * @param first index of the first row's line, from 0
 * @param columns cells in each row
 * @param rows the cells of each row
 */
record TextTable(Cells cells, int first, int columns, List<List<String>> rows) {
    private static final char[] SEPARATORS = {';', '\t', ',', ' '};
    private static final int FEWEST_ROWS = 2;

    TextTable {
        rows = List.copyOf(rows);
    }

    /** Of all separators and decimal marks those that turn most lines into rows of numbers; empty if there are no rows. */
    static Optional<TextTable> bestOf(List<String> lines) {
        boolean quoted = lines.stream().anyMatch(l -> l.contains("\""));
        TextTable best = null;
        for (char separator : SEPARATORS) {
            for (char mark : separator == ',' && !quoted ? new char[] {'.'} : new char[] {'.', ','}) {
                TextTable table = of(lines, new Cells(separator, mark));
                if (table != null && (best == null || table.betterThan(best))) {
                    best = table;
                }
            }
        }
        return Optional.ofNullable(best);
    }

    /** The longest run of rows of one width; null if there is none of two rows. */
    private static TextTable of(List<String> lines, Cells cells) {
        int bestFirst = 0;
        int bestColumns = 0;
        List<List<String>> best = List.of();
        int first = 0;
        int columns = 0;
        List<List<String>> run = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).isBlank()) {
                continue;
            }
            int found = cells.numericCells(lines.get(i));
            if (found == 0 || found != columns) {
                first = i;
                columns = found;
                run = new ArrayList<>();
            }
            if (found > 0) {
                run.add(cells.split(lines.get(i)));
            }
            if (run.size() > best.size() || run == best) {
                best = run;
                bestFirst = first;
                bestColumns = columns;
            }
        }
        return best.size() >= FEWEST_ROWS ? new TextTable(cells, bestFirst, bestColumns, best) : null;
    }

    private boolean betterThan(TextTable other) {
        if (rows.size() != other.rows.size()) {
            return rows.size() > other.rows.size();
        }
        if (columns == 1 && other.columns == 2 && cells.decimalMark() == ',') {
            // "0,125" is one number with a decimal comma unless the first halves count on like times
            return !other.increases(0);
        }
        return columns > other.columns;
    }

    /** The number in a place; empty where the cell is. */
    OptionalDouble number(int row, int column) {
        List<String> line = rows.get(row);
        return column < line.size() ? cells.number(line.get(column)) : OptionalDouble.empty();
    }

    /** Whether a column holds no number in any row. */
    boolean isEmpty(int column) {
        for (int row = 0; row < rows.size(); row++) {
            if (number(row, column).isPresent()) {
                return false;
            }
        }
        return true;
    }

    /** The first column that holds numbers. */
    int firstFilled() {
        int column = 0;
        while (column < columns - 1 && isEmpty(column)) {
            column++;
        }
        return column;
    }

    /** Whether a column never falls and rises somewhere. */
    boolean increases(int column) {
        double start = number(0, column).orElse(0);
        double before = start;
        for (int row = 1; row < rows.size(); row++) {
            double now = number(row, column).orElse(Double.NEGATIVE_INFINITY);
            if (now < before) {
                return false;
            }
            before = now;
        }
        return before > start;
    }

    /** Whether a column rises by exactly one from row to row. */
    boolean counts(int column) {
        for (int row = 0; row < rows.size(); row++) {
            if (number(row, column).isEmpty()
                    || number(row, column).getAsDouble() != number(0, column).orElse(0) + row) {
                return false;
            }
        }
        return true;
    }
}
