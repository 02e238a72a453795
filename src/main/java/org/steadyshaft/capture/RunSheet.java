package org.steadyshaft.capture;

import com.google.re2j.Matcher;
import com.google.re2j.Pattern;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import org.steadyshaft.file.Reasons;

/**
 * A run sheet: a CSV table that tells what was recorded with which circuit at which setting.
 *
 * @param rows one entry a row that names a file, in order
 */
public record RunSheet(List<Row> rows) {
    private static final String FILE = SheetColumns.FILE;

    /** What is read into a field of its own; all else is kept by its name. */
    private static final Set<String> FIELDS =
            Set.of(FILE, "circuit", "setting", "load", "pole_pairs", "mains_hz", "channel", "note");

    /** How the reader of tables words what it does not like. */
    private static final Pattern TWICE = Pattern.compile("duplicate name: \"([^\"]*)\"");

    private static final Pattern FILE_NAME = Pattern.compile(".+\\.[A-Za-z][A-Za-z0-9]{0,4}");
    private static final Pattern PAIRS = Pattern.compile("[0-9]{1,3}");
    private static final Pattern MAINS = Pattern.compile("[56]0(\\.0*)?");
    private static final Pattern LINE = Pattern.compile("line:? ?([0-9]+)");

    public RunSheet {
        rows = List.copyOf(rows);
    }

    /**
     * One run.
     *
     * @param file the recording, found from the sheet's own folder
     * @param name the file as the sheet writes it
     * @param where sheet and line
     * @param circuit, setting, load, channel, note as written; empty where the cell is
     * @param polePairs cycles of the tacho a turn; absent where the cell is empty
     * @param mainsHz 50 or 60; absent where the cell is empty
     * @param others columns the program does not know, by name
     * @param problem what is wrong with the row; absent if nothing is
     */
    public record Row(
            Path file,
            String name,
            String where,
            String circuit,
            String setting,
            String load,
            String channel,
            String note,
            OptionalInt polePairs,
            OptionalDouble mainsHz,
            Map<String, String> others,
            Optional<String> problem) {}

    /** Whether a file's first line has a column called "file": that is what makes a table a run sheet. */
    public static boolean looksLikeOne(Path file) {
        try (Lines lines = new Lines(TextBytes.open(file), file.toString())) {
            if (!lines.next()) {
                return false;
            }
            List<String> head = cells(lines.line(), delimiter(lines.line()));
            boolean known = head.stream()
                    .map(SheetColumns::named)
                    .anyMatch(name -> !name.equals(FILE) && SheetColumns.isKnown(name));
            // a scope's table may begin with the words "file name"
            boolean named = known && head.stream().map(SheetColumns::named).anyMatch(FILE::equals);
            return (head.contains(FILE) || named)
                    && !isResults(head)
                    && (known || head.size() == 1 || !lines.next() || namesFile(file, head, lines.line()));
        } catch (IOException e) {
            return false;
        }
    }

    /** Whether a file is a table of results that this program wrote; it names files too. */
    public static boolean looksLikeResults(Path file) {
        try (Lines lines = new Lines(TextBytes.open(file), file.toString())) {
            return lines.next() && isResults(cells(lines.line(), ','));
        } catch (IOException e) {
            return false;
        }
    }

    private static boolean isResults(List<String> head) {
        return head.contains("capture") && head.contains("mean_rpm");
    }

    private static List<String> cells(String line, char delimiter) {
        return new Cells(delimiter, '.')
                .split(line).stream().map(cell -> cell.toLowerCase(Locale.ROOT)).toList();
    }

    /** Whether the first row names a file that is there, or something with an ending like one. */
    private static boolean namesFile(Path sheet, List<String> head, String row) {
        List<String> cells = new Cells(delimiter(row), '.').split(row);
        String cell = head.indexOf(FILE) < cells.size() ? cells.get(head.indexOf(FILE)) : "";
        return FILE_NAME.matcher(cell).matches();
    }

    /**
     * Reads a run sheet.
     *
     * @throws CaptureException if it cannot be read or has no column "file"
     */
    public static RunSheet read(Path sheet) throws CaptureException {
        List<Row> rows = new ArrayList<>();
        try (Reader reader = TextBytes.open(sheet);
                CSVParser parser = CSVFormat.DEFAULT
                        .builder()
                        .setDelimiter(delimiter(sheet))
                        .setHeader()
                        .setSkipHeaderRecord(true)
                        .setIgnoreHeaderCase(true)
                        .setAllowMissingColumnNames(true)
                        .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_EMPTY)
                        .setIgnoreEmptyLines(true)
                        .setTrim(true)
                        .get()
                        .parse(reader)) {
            SheetColumns columns = SheetColumns.of(sheet.toString(), parser.getHeaderNames());
            if (!columns.has(FILE)) {
                throw new CaptureException(
                        sheet + ":1: found the columns " + parser.getHeaderNames() + "; expected one called 'file'");
            }
            for (CSVRecord record : parser) {
                if (!cell(record, columns, FILE).isEmpty()) {
                    rows.add(row(sheet, parser, columns, record));
                }
            }
        } catch (CaptureException e) {
            throw e;
        } catch (IOException | RuntimeException e) {
            throw new CaptureException(sheet + ": cannot be read as a run sheet: " + why(e), e);
        }
        if (rows.isEmpty()) {
            throw new CaptureException(sheet + ": the run sheet names no file");
        }
        return new RunSheet(rows);
    }

    /** What the reader of tables did not like, in words. */
    private static String why(Exception e) {
        IOException io = e instanceof IOException i ? i : e.getCause() instanceof IOException i ? i : null;
        String message = String.valueOf(io == null ? e.getMessage() : io.getMessage());
        Matcher twice = TWICE.matcher(message);
        if (twice.find()) {
            return "found two columns called '" + twice.group(1) + "'; expected each once";
        }
        if (message.contains("encapsulated")) {
            Matcher line = LINE.matcher(message);
            return "line " + (line.find() ? line.group(1) : "not known")
                    + ": found a quotation mark without another; expected one before and one behind the cell's text";
        }
        return io == null ? "its rows are no table; expected cells with the same separator in each" : Reasons.of(io);
    }

    private static char delimiter(Path sheet) throws IOException {
        try (Lines lines = new Lines(TextBytes.open(sheet), sheet.toString())) {
            return delimiter(lines.next() ? lines.line() : "");
        }
    }

    /** The delimiter that yields a cell called "file"; a comma where none does. */
    private static char delimiter(String head) {
        for (char candidate : new char[] {',', ';', '\t'}) {
            if (cells(head, candidate).stream().map(SheetColumns::named).anyMatch(FILE::equals)) {
                return candidate;
            }
        }
        return ',';
    }

    private static Row row(Path sheet, CSVParser parser, SheetColumns columns, CSVRecord record) {
        String name = cell(record, columns, FILE);
        String where = sheet + ":" + parser.getCurrentLineNumber();
        List<String> problems = new ArrayList<>();
        Path folder = sheet.toAbsolutePath().getParent();
        Path file = folder;
        try {
            file = found(folder, name);
        } catch (InvalidPathException e) {
            problems.add(where + ": column file: found '" + name + "'; expected the name of a file");
        }
        Map<String, String> others = new LinkedHashMap<>();
        for (String column : columns.names()) {
            if (!FIELDS.contains(column)) {
                others.put(column, cell(record, columns, column));
            }
        }
        return new Row(
                file,
                name,
                where,
                cell(record, columns, "circuit"),
                cell(record, columns, "setting"),
                cell(record, columns, "load"),
                cell(record, columns, "channel"),
                cell(record, columns, "note"),
                polePairs(cell(record, columns, "pole_pairs"), where, problems),
                mains(cell(record, columns, "mains_hz"), where, problems),
                others,
                problems.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", problems)));
    }

    /** Where a file of the sheet is: from the sheet's own folder, with either kind of slash between folders. */
    private static Path found(Path folder, String name) {
        Path file = folder.resolve(name).normalize();
        Path turned = folder.resolve(name.replace('\\', '/')).normalize();
        return Files.exists(file) || !Files.exists(turned) ? file : turned;
    }

    private static String cell(CSVRecord record, SheetColumns columns, String name) {
        return columns.heading(name)
                .filter(heading -> record.isMapped(heading) && record.isSet(heading))
                .map(record::get)
                .orElse("");
    }

    private static OptionalInt polePairs(String cell, String where, List<String> problems) {
        if (cell.isEmpty()) {
            return OptionalInt.empty();
        }
        if (PAIRS.matcher(cell).matches() && Integer.parseInt(cell) > 0) {
            return OptionalInt.of(Integer.parseInt(cell));
        }
        problems.add(where + ": column pole_pairs: found '" + cell + "'; expected a whole number from 1 to 999");
        return OptionalInt.empty();
    }

    private static OptionalDouble mains(String cell, String where, List<String> problems) {
        if (cell.isEmpty()) {
            return OptionalDouble.empty();
        }
        if (MAINS.matcher(cell).matches()) {
            return OptionalDouble.of(Double.parseDouble(cell));
        }
        problems.add(where + ": column mains_hz: found '" + cell + "'; expected 50 or 60");
        return OptionalDouble.empty();
    }
}
