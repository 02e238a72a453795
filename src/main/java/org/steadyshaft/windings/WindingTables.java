package org.steadyshaft.windings;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.signal.PlainText;

/** Reads tables of readings and of ranges: CSV with a heading. Errors say where, what was found and what was expected. */
public final class WindingTables {
    private static final String FROM = "from";
    private static final String TO = "to";
    private static final String OHMS = "ohms";
    private static final String FRAME = "frame";

    /** What meters show where nothing connects. */
    private static final Set<String> OPEN = Set.of("open", "ol", "o.l", "o.l.", "inf", "1.", "-");

    private static final Set<String> YES = Set.of("yes", "y");
    private static final Set<String> NO = Set.of("no", "n");

    private final String file;

    private WindingTables(String file) {
        this.file = file;
    }

    /** The ranges that come with the program, as text. */
    public static String usualText() {
        try (InputStream in = WindingTables.class.getResourceAsStream("ranges.csv")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The ranges that come with the program: common practice. */
    public static Ranges usualRanges() {
        try {
            return new WindingTables("ranges.csv").ranges(usualText());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Ranges of the user's own.
     *
     * @throws IOException if the file cannot be read or holds what it should not; the message is for the user
     */
    public static Ranges ranges(Path path) throws IOException {
        return new WindingTables(PlainText.of(path.toString())).ranges(InputFiles.text(path));
    }

    /**
     * Readings, one a pair of contacts.
     *
     * @throws IOException if the file cannot be read or holds what it should not; the message is for the user
     */
    public static List<Reading> readings(Path path) throws IOException {
        return new WindingTables(PlainText.of(path.toString())).readings(InputFiles.text(path));
    }

    private Ranges ranges(String text) throws IOException {
        Map<Winding, Ranges.Range> ranges = new EnumMap<>(Winding.class);
        double frame = 0;
        for (CSVRecord row : rows(text, "winding")) {
            String name = cell(row, "winding").toLowerCase(Locale.ROOT);
            double from = ohms(row, "from_ohms", cell(row, "from_ohms"));
            if (name.equals(FRAME)) {
                frame = from;
                continue;
            }
            Optional<Winding> winding = Arrays.stream(Winding.values())
                    .filter(w -> w.key().equals(name))
                    .findFirst();
            if (winding.isEmpty()) {
                throw at(row, "winding", name, "one of " + names());
            }
            double to = ohms(row, "to_ohms", cell(row, "to_ohms"));
            if (!(to > from) || !Double.isFinite(to)) {
                throw at(row, "to_ohms", cell(row, "to_ohms"), "more than from_ohms");
            }
            ranges.put(winding.get(), new Ranges.Range(from, to));
        }
        if (ranges.size() != Winding.values().length || !(frame > 0)) {
            throw new IOException(file + ": found rows for "
                    + ranges.keySet().stream().map(Winding::key).collect(Collectors.joining(", "))
                    + "; expected each of " + names() + ", " + FRAME);
        }
        return new Ranges(ranges, frame);
    }

    private static String names() {
        return Arrays.stream(Winding.values()).map(Winding::key).collect(Collectors.joining(", "));
    }

    private List<Reading> readings(String text) throws IOException {
        List<Reading> readings = new ArrayList<>();
        for (CSVRecord row : rows(text, FROM)) {
            String from = PlainText.of(cell(row, FROM));
            String to = PlainText.of(cell(row, TO));
            if (from.isEmpty() || to.isEmpty() || from.equalsIgnoreCase(to)) {
                throw at(row, from.isEmpty() ? FROM : TO, from.isEmpty() ? from : to, "the names of two contacts");
            }
            if (readings.stream().anyMatch(r -> r.touches(from) && r.touches(to))) {
                throw at(row, TO, from + " and " + to, "each pair of contacts once");
            }
            readings.add(new Reading(
                    from,
                    to,
                    ohms(row, OHMS, cell(row, OHMS)),
                    answer(row, "jumps"),
                    answer(row, "volts"),
                    answer(row, "brushes"),
                    answer(row, "opens_warm")));
        }
        if (readings.isEmpty()) {
            throw new IOException(file + ": found no reading; expected rows with " + FROM + ", " + TO + " and " + OHMS);
        }
        return readings;
    }

    private List<CSVRecord> rows(String text, String first) throws IOException {
        String head = text.lines().findFirst().orElse("");
        char delimiter = head.indexOf(';') >= 0 ? ';' : head.indexOf('\t') >= 0 ? '\t' : ',';
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setDelimiter(delimiter)
                .setHeader()
                .setSkipHeaderRecord(true)
                .setIgnoreHeaderCase(true)
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .get();
        try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
            if (!parser.getHeaderMap().containsKey(first)) {
                throw new IOException(file + ":1: found the columns " + parser.getHeaderNames()
                        + "; expected one called '" + first + "'");
            }
            return parser.getRecords();
        } catch (IllegalArgumentException | UncheckedIOException e) {
            throw new IOException(file + ": cannot be read as a table; expected CSV with a heading", e);
        }
    }

    private static String cell(CSVRecord row, String column) {
        return row.isMapped(column) && row.isSet(column) ? row.get(column).strip() : "";
    }

    private double ohms(CSVRecord row, String column, String cell) throws IOException {
        String plain = cell.toLowerCase(Locale.ROOT);
        if (OPEN.contains(plain)) {
            return Double.POSITIVE_INFINITY;
        }
        try {
            double ohms = Double.parseDouble(plain.replace(',', '.'));
            if (ohms >= 0 && Double.isFinite(ohms)) {
                return ohms;
            }
        } catch (NumberFormatException e) {
            // told below, as for any other cell
        }
        throw at(row, column, cell, "a resistance in ohm, or 'open'");
    }

    private Optional<Boolean> answer(CSVRecord row, String column) throws IOException {
        String cell = cell(row, column).toLowerCase(Locale.ROOT);
        if (cell.isEmpty()) {
            return Optional.empty();
        }
        if (!YES.contains(cell) && !NO.contains(cell)) {
            throw at(row, column, cell, "yes, no or nothing");
        }
        return Optional.of(YES.contains(cell));
    }

    private IOException at(CSVRecord row, String column, String found, String expected) {
        // the heading is the first line
        return new IOException(file + ":" + (row.getRecordNumber() + 1) + ": column " + column + ": found '"
                + PlainText.of(found) + "'; expected " + expected);
    }
}
