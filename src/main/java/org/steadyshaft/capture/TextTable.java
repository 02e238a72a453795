package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * The rows of numbers in the first lines of a text export.
 *
 * @param cells how a line falls into cells
 * @param first index of the first row's line, from 0
 * @param columns cells in each row
 * @param preambleEnd index after the last line that may hold something beside numbers; behind {@code first} where keys and
 *     values stand beside the first rows
 * @param rows the cells of each row
 */
record TextTable(Cells cells, int first, int preambleEnd, int columns, List<List<String>> rows) {
    private static final char[] SEPARATORS = {';', '\t', ',', ' '};
    private static final int FEWEST_ROWS = 2;

    /** After so many rows a line or two that are damaged do not end the table, even if they look like a header. */
    private static final int ROWS_OF_A_TABLE = 8;

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

    /** The longest run of rows of one width, over a damaged line or two; null if there is none of two rows. */
    private static TextTable of(List<String> lines, Cells cells) {
        Run best = new Run(0, 0);
        Run run = best;
        int damaged = 0;
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).isBlank()) {
                continue;
            }
            int found = cells.numericCells(lines.get(i));
            boolean fits = found > 0 && found == run.columns;
            if (!fits && run.goesOnBehind(cells.split(lines.get(i))) && ++damaged <= Rows.MOST_DAMAGED_TOGETHER) {
                continue;
            }
            if (!fits) {
                run = new Run(i, found);
            }
            damaged = 0;
            if (found > 0) {
                run.rows.add(cells.split(lines.get(i)));
            }
            best = run.rows.size() > best.rows.size() ? run : best;
        }
        return best.rows.size() >= FEWEST_ROWS ? best.withRowsBesideText(lines, cells) : null;
    }

    /** Rows of one width, from a line on. */
    private record Run(int first, int columns, List<List<String>> rows) {
        Run(int first, int columns) {
            this(first, columns, new ArrayList<>());
        }

        /** Whether a line that does not fit may be damage: not if it stands behind few rows and looks like a header. */
        boolean goesOnBehind(List<String> line) {
            return rows.size() >= ROWS_OF_A_TABLE
                    || rows.size() >= FEWEST_ROWS
                            && line.stream()
                                    .map(cell -> TextColumn.of(cell, 1, ""))
                                    .noneMatch(c -> c.saysTime() || c.says() == TextColumn.Says.VOLTS);
        }

        /** With the rows above that have text in columns which are empty in the table, and numbers in the others. */
        TextTable withRowsBesideText(List<String> lines, Cells cells) {
            TextTable table = new TextTable(cells, first, first, columns, rows);
            List<Integer> used = IntStream.range(0, columns)
                    .filter(c -> !table.isEmpty(c))
                    .boxed()
                    .toList();
            int from = first;
            List<List<String>> all = new ArrayList<>(rows);
            while (from > 0 && used.size() < columns) {
                List<String> above = cells.split(lines.get(from - 1));
                boolean numbers = used.stream()
                        .allMatch(c ->
                                c < above.size() && cells.number(above.get(c)).isPresent());
                if (!numbers) {
                    break;
                }
                all.add(
                        0,
                        IntStream.range(0, columns)
                                .mapToObj(c -> used.contains(c) ? above.get(c) : "")
                                .toList());
                from--;
            }
            return new TextTable(cells, from, first, columns, all);
        }
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
        return column < line.size() ? cells.value(line.get(column)) : OptionalDouble.empty();
    }

    /** Whether a column holds times of day or dates and nothing else. */
    boolean isClock(int column) {
        return all(
                column,
                cell -> cells.number(cell).isEmpty() && cells.value(cell).isPresent());
    }

    /** Whether a column holds dates and nothing else. */
    boolean isDate(int column) {
        return all(column, ClockTime::isDate);
    }

    private boolean all(int column, Predicate<String> holds) {
        return !isEmpty(column)
                && rows.stream()
                        .filter(row -> column < row.size() && !row.get(column).isEmpty())
                        .allMatch(row -> holds.test(row.get(column)));
    }

    /** Whether no number of a column is below zero and none above three times another: such are speeds, no waveform. */
    boolean staysUp(int column) {
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (int row = 0; row < rows.size(); row++) {
            double value = number(row, column).orElse(Double.NaN);
            least = Math.min(least, Double.isNaN(value) ? least : value);
            most = Math.max(most, Double.isNaN(value) ? most : value);
        }
        return least > 0 && most < 3 * least;
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
            double now = number(row, column).orElse(before);
            if (now < before) {
                return false;
            }
            before = now;
        }
        return before > start;
    }

    /** Whether a column rises along a straight line, but for the rounding of its numbers. */
    boolean risesEvenly(int column) {
        double from = number(0, column).orElse(Double.NaN);
        double step = (number(rows.size() - 1, column).orElse(Double.NaN) - from) / (rows.size() - 1);
        boolean even = step > 0;
        for (int row = 0; row < rows.size() && even; row++) {
            even = Math.abs(number(row, column).orElse(Double.NaN) - from - row * step) < 0.5 * step;
        }
        return even;
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
