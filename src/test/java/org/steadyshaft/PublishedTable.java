package org.steadyshaft;

import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;

/** Reads the tables of published values; a choice of no rows is a failure, so that no test passes by checking nothing. */
public final class PublishedTable {
    private static final String ROOT = "/org/steadyshaft/";
    private static final String FOLDER = "published-values/";

    private PublishedTable() {}

    /** Every row of a table with a header. */
    public static List<Row> rows(String file) {
        return rows(file, row -> true);
    }

    /** The rows of a table that apply; fails if there are none. */
    public static List<Row> rows(String file, Predicate<Row> applies) {
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (CSVParser parser = CSVParser.parse(new InputStreamReader(open(file), StandardCharsets.UTF_8), format)) {
            List<Row> rows = parser.stream()
                    .map(cells -> new Row(file, cells.getRecordNumber(), cells.toMap()))
                    .filter(applies)
                    .collect(Collectors.toList());
            assertFalse(rows.isEmpty(), () -> file + ": no row applies, so nothing would be checked");
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** One column of a table as numbers. */
    public static double[] column(String file, String column) {
        return rows(file).stream().mapToDouble(row -> row.number(column)).toArray();
    }

    /** A JSON file. */
    public static JsonNode json(String file) {
        try (InputStream in = open(file)) {
            return new ObjectMapper().readTree(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A bare name lies among the published values; "scipy/windows.csv" in the folder that it names. */
    private static InputStream open(String file) {
        String path = ROOT + (file.contains("/") ? "" : FOLDER) + file;
        InputStream in = PublishedTable.class.getResourceAsStream(path);
        if (in == null) {
            throw new AssertionError("no resource " + path);
        }
        return in;
    }

    /**
     * A row of a table.
     *
     * @param number counted from 1, without the header
     */
    public record Row(String file, long number, Map<String, String> cells) {
        public String text(String column) {
            String cell = cells.get(column);
            if (cell == null) {
                throw new AssertionError(this + ": no column " + column);
            }
            return cell;
        }

        public boolean has(String column) {
            return !text(column).isEmpty();
        }

        public double number(String column) {
            return Double.parseDouble(text(column));
        }

        public int whole(String column) {
            return Integer.parseInt(text(column));
        }

        /** Half a unit of the last printed digit, with a trace more for numbers printed exactly in the middle. */
        public double halfUnit(String column) {
            return 0.5000001 * Math.pow(10, -new BigDecimal(text(column)).scale());
        }

        @Override
        public String toString() {
            return file + " row " + number;
        }
    }
}
