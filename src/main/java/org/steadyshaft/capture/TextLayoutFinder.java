package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.regex.Pattern;

/**
 * Infers the layout of a text export from its first lines: of all separators and decimal marks those are taken that turn
 * most of the last lines into rows of numbers of one width; what stands above the numbers gives names, units, interval or
 * rate. Nothing depends on who wrote the file.
 */
final class TextLayoutFinder {
    /** Preambles of more lines than this are not looked through. */
    static final int LOOK_LINES = 400;

    private static final char[] SEPARATORS = {';', '\t', ',', ' '};
    private static final Pattern TIME_NAME =
            Pattern.compile("(?i)\\b(time|times|zeit|temps|tiempo|tempo|t|x|x-axis|second|seconds|sekunden)\\b");
    private static final Pattern INDEX_NAME = Pattern.compile("(?i)\\b(index|sample|samples|no|nr|n|point)\\b");
    private static final Pattern INTERVAL_KEY =
            Pattern.compile("(?i).*(interval|increment|sample period|sampling period|delta|\\bdt\\b).*");
    private static final Pattern RATE_KEY =
            Pattern.compile("(?i).*(sampl\\w*[ _-]*(rate|freq\\w*|clock)|\\brate\\b|\\bfs\\b).*");

    private final String name;
    private final List<String> lines;
    private final List<String> remarks = new ArrayList<>();

    /** @param lines the first lines of the file, up to {@link #LOOK_LINES} */
    TextLayoutFinder(String name, List<String> lines) {
        this.name = name;
        this.lines = lines;
    }

    TextLayout find() throws CaptureException {
        Table table = bestTable();
        List<String> names = names(table);
        List<Optional<String>> units = units(table, names);
        OptionalInt time = timeColumn(table, names, units);
        OptionalDouble interval = interval(table);
        double secondsPerUnit = time.isPresent() ? secondsPerUnit(units.get(time.getAsInt())) : 1;
        boolean counts = time.isPresent() && countsSamples(table, time.getAsInt(), names, units);
        if (counts && interval.isEmpty()) {
            remarks.add("column " + (time.getAsInt() + 1) + " counts samples; it gives no time");
        }
        return new TextLayout(
                table.cells,
                table.first + 1L,
                table.columns,
                time.isPresent() && !counts ? time : OptionalInt.empty(),
                secondsPerUnit,
                interval,
                channels(table, names, units, time),
                remarks);
    }

    /** Rows of numbers: from line {@code first} (from 0) on, {@code columns} cells in each of {@code rows}. */
    private record Table(Cells cells, int first, int columns, int rows) {}

    private Table bestTable() throws CaptureException {
        Table best = null;
        for (char separator : SEPARATORS) {
            for (char mark : separator == ',' ? new char[] {'.'} : new char[] {'.', ','}) {
                Table table = table(new Cells(separator, mark));
                if (table != null && (best == null || better(table, best))) {
                    best = table;
                }
            }
        }
        if (best == null) {
            String sample = lines.isEmpty() ? "" : lines.get(0).strip();
            throw new CaptureException(name + ":1: found no rows of numbers in the first " + lines.size()
                    + " lines (the text begins with '" + shortened(sample)
                    + "'); expected a table of voltages, with times or with a sample rate");
        }
        return best;
    }

    static String shortened(String text) {
        return text.length() <= 40 ? text : text.substring(0, 37) + "...";
    }

    private boolean better(Table table, Table than) {
        if (table.rows != than.rows) {
            return table.rows > than.rows;
        }
        if (table.columns == 1 && than.columns == 2 && table.cells.decimalMark() == ',') {
            // "0,125" is one number with a decimal comma unless the first halves count on like times
            return !increases(than, 0);
        }
        return table.columns > than.columns;
    }

    /** The longest run of rows of one width; one row that breaks it (a cut line at the end) does not count. */
    private Table table(Cells cells) {
        int bestFirst = -1;
        int bestRows = 0;
        int bestColumns = 0;
        int first = 0;
        int rows = 0;
        int columns = 0;
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i);
            if (line.isBlank()) {
                continue;
            }
            int found = cells.numericCells(line);
            if (found == 0 || found != columns) {
                first = i;
                rows = 0;
                columns = found;
            }
            rows += found > 0 ? 1 : 0;
            if (rows > bestRows) {
                bestRows = rows;
                bestFirst = first;
                bestColumns = columns;
            }
        }
        return bestRows >= 2 ? new Table(cells, bestFirst, bestColumns, bestRows) : null;
    }

    private double value(Table table, int row, int column) {
        int seen = 0;
        for (int i = table.first; i < lines.size(); i++) {
            if (!lines.get(i).isBlank() && seen++ == row) {
                return table.cells
                        .number(table.cells.cell(lines.get(i), column))
                        .orElse(0);
            }
        }
        return 0;
    }

    private boolean increases(Table table, int column) {
        double before = value(table, 0, column);
        double start = before;
        for (int row = 1; row < table.rows; row++) {
            double now = value(table, row, column);
            if (now < before) {
                return false;
            }
            before = now;
        }
        return before > start;
    }

    /** Names from the last line above the numbers that has a name for every column; numbers of columns where none has. */
    private List<String> names(Table table) {
        for (int i = table.first - 1; i >= 0; i--) {
            List<String> cells = table.cells.split(uncommented(lines.get(i)));
            boolean units = cells.stream().allMatch(c -> c.isEmpty() || isUnit(bracketless(c)));
            if (!units
                    && cells.size() == table.columns
                    && (table.columns > 1 || !cells.get(0).contains(":"))) {
                remarks.add("column names from line " + (i + 1));
                return cells;
            }
        }
        List<String> numbers = new ArrayList<>();
        for (int c = 0; c < table.columns; c++) {
            numbers.add(Integer.toString(c + 1));
        }
        return numbers;
    }

    private static String uncommented(String line) {
        String text = line.strip();
        while (text.startsWith("#") || text.startsWith("%") || text.startsWith("//")) {
            text = text.substring(text.startsWith("//") ? 2 : 1).strip();
        }
        return text;
    }

    private static String bracketless(String cell) {
        return cell.replaceAll("[()\\[\\]]", "").trim();
    }

    private static boolean isUnit(String word) {
        return Units.seconds(word).isPresent() || Units.volts(word).isPresent();
    }

    private List<Optional<String>> units(Table table, List<String> names) {
        for (int i = table.first - 1; i >= 0; i--) {
            List<String> cells = table.cells.split(uncommented(lines.get(i)));
            boolean all = cells.size() == table.columns
                    && cells.stream().allMatch(c -> c.isEmpty() || isUnit(bracketless(c)));
            if (all) {
                remarks.add("units from line " + (i + 1));
                return cells.stream()
                        .map(c -> c.isEmpty() ? Optional.<String>empty() : Optional.of(bracketless(c)))
                        .toList();
            }
        }
        return names.stream().map(Units::inName).toList();
    }

    private OptionalInt timeColumn(Table table, List<String> names, List<Optional<String>> units) {
        for (int c = 0; c < table.columns && table.columns > 1; c++) {
            boolean unit = units.get(c).isPresent()
                    && Units.seconds(units.get(c).get()).isPresent();
            boolean named = TIME_NAME.matcher(names.get(c)).find()
                    && units.get(c).map(Units::volts).isEmpty();
            if (unit || named || c == 0 && increases(table, 0)) {
                remarks.add("times in column " + (c + 1)
                        + (unit ? " (unit " + units.get(c).get() + ")" : ""));
                return OptionalInt.of(c);
            }
        }
        return OptionalInt.empty();
    }

    /** A column 0, 1, 2, ... that is not called a time counts samples. */
    private boolean countsSamples(Table table, int column, List<String> names, List<Optional<String>> units) {
        if (units.get(column).isPresent()
                || TIME_NAME.matcher(names.get(column)).find()) {
            return INDEX_NAME.matcher(names.get(column)).find();
        }
        for (int row = 0; row < table.rows; row++) {
            if (value(table, row, column) != value(table, 0, column) + row) {
                return false;
            }
        }
        return true;
    }

    private double secondsPerUnit(Optional<String> unit) {
        return unit.map(u -> Units.seconds(u).orElse(1)).orElse(1.0);
    }

    /** The time between samples from a line such as "Sample Interval,2.0e-5" or "rate = 50 kHz". */
    private OptionalDouble interval(Table table) {
        for (int i = 0; i < table.first; i++) {
            String line = uncommented(lines.get(i));
            boolean rate = RATE_KEY.matcher(line).matches();
            if (!rate && !INTERVAL_KEY.matcher(line).matches()) {
                continue;
            }
            for (String part : line.split("[=:;,\\t]")) {
                Optional<Units.Quantity> quantity = Units.quantity(part.replace("\"", ""), '.');
                OptionalDouble interval =
                        quantity.isPresent() ? interval(quantity.get(), rate) : OptionalDouble.empty();
                if (interval.isPresent()) {
                    remarks.add((rate ? "sample rate" : "interval") + " from line " + (i + 1));
                    return interval;
                }
            }
        }
        return OptionalDouble.empty();
    }

    private static OptionalDouble interval(Units.Quantity quantity, boolean rate) {
        String unit = quantity.unit().toLowerCase(Locale.ROOT);
        OptionalDouble factor = unit.isEmpty() ? OptionalDouble.of(1) : rate ? Units.hertz(unit) : Units.seconds(unit);
        if (factor.isEmpty() || !(quantity.value() * factor.getAsDouble() > 0)) {
            return OptionalDouble.empty();
        }
        double value = quantity.value() * factor.getAsDouble();
        return OptionalDouble.of(rate ? 1 / value : value);
    }

    private List<TextLayout.Channel> channels(
            Table table, List<String> names, List<Optional<String>> units, OptionalInt time) throws CaptureException {
        List<TextLayout.Channel> channels = new ArrayList<>();
        for (int c = 0; c < table.columns; c++) {
            if (time.isEmpty() || time.getAsInt() != c) {
                double volts = units.get(c).map(u -> Units.volts(u).orElse(1)).orElse(1.0);
                channels.add(new TextLayout.Channel(c, names.get(c), volts, units.get(c)));
            }
        }
        if (channels.isEmpty()) {
            throw new CaptureException(
                    name + ":" + (table.first + 1) + ": found times only; expected a column of voltages beside them");
        }
        return channels;
    }
}
