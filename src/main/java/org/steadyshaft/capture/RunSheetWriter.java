package org.steadyshaft.capture;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.file.SpreadsheetText;

/** Writes run sheets: the table that {@link RunSheet} reads. */
public final class RunSheetWriter {
    /** The columns that the program knows, in the order in which a user fills them in. */
    public static final List<String> COLUMNS = List.of(
            "file",
            "circuit",
            "variant",
            "setting",
            "load",
            "pole_pairs",
            "mains_hz",
            "channel",
            "tacho",
            "belt_ratio",
            "loop",
            "date",
            "note");

    /** What a run sheet is called where the program writes one. */
    public static final String USUAL_NAME = "run-sheet.csv";

    private RunSheetWriter() {}

    /**
     * Writes a sheet.
     *
     * @param columns headings, "file" among them
     * @param rows cells by heading; what is missing stays empty
     * @throws IOException if it cannot be written
     */
    public static void write(Writer out, List<String> columns, List<Map<String, String>> rows) throws IOException {
        CSVPrinter printer = new CSVPrinter(
                out, CSVFormat.DEFAULT.builder().setRecordSeparator('\n').get());
        printer.printRecord(columns);
        for (Map<String, String> row : rows) {
            printer.printRecord(columns.stream()
                    .map(column -> SpreadsheetText.of(row.getOrDefault(column, "")))
                    .toList());
        }
        printer.flush();
    }
}
