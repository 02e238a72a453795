package org.steadyshaft.report;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.OwnFile;

/** The files that analyse writes, and what tells from their content that it did: the one place that knows these names. */
public final class ResultFiles {
    static final String INDEX = "index.html";
    static final String SUMMARY = "summary.csv";
    static final String COMPARISON_PAGE = "comparison.html";
    static final String COMPARISON_JSON = "comparison.json";
    static final String COMPARISON_CSV = "comparison.csv";
    static final String SHARE = "share.html";
    static final String RESULT = "result.json";
    static final String TRACK = "track.csv";
    static final String EVENTS = "events.csv";
    static final String PAGE = "report.html";
    static final String MEASURES = "measures.json";

    /** Stack trace of a fault of the program; absent where all went well. */
    public static final String FAULT = "fault.txt";

    /** Every page's title ends so. */
    private static final String PAGE_MARK = " - steadyshaft</title>";

    /** First words of a stack trace that is kept. */
    public static final String FAULT_MARK = "A fault in this program, steadyshaft";

    /** Every JSON file names its schema. */
    private static final String JSON_MARK = "\"steadyshaft-";

    private ResultFiles() {}

    /** What stands directly in the output folder. */
    public static List<OwnFile> ofTheBatch() {
        return List.of(
                OwnFile.bearing(INDEX, PAGE_MARK),
                OwnFile.bearing(SHARE, PAGE_MARK),
                OwnFile.bearing(SUMMARY, "capture,file,circuit,"),
                OwnFile.bearing(COMPARISON_PAGE, PAGE_MARK),
                OwnFile.bearing(COMPARISON_JSON, JSON_MARK),
                new OwnFile(COMPARISON_CSV, ResultFiles::isComparisonTable));
    }

    /** A page of the program beside those of a batch. */
    public static OwnFile page(String name) {
        return OwnFile.bearing(name, PAGE_MARK);
    }

    /** What stands in a capture's folder. */
    public static List<OwnFile> ofACapture() {
        return List.of(
                OwnFile.bearing(RESULT, JSON_MARK),
                OwnFile.bearing(TRACK, Tables.TRACK_COLUMNS),
                OwnFile.bearing(EVENTS, Tables.EVENT_COLUMNS),
                OwnFile.bearing(PAGE, PAGE_MARK),
                OwnFile.bearing(FAULT, FAULT_MARK),
                new OwnFile(MEASURES, ResultFiles::areMeasures));
    }

    private static boolean isComparisonTable(Path file) {
        return OwnFile.bears(file, ComparisonCsv.FIRST_COLUMNS)
                || OwnFile.bears(file, ComparisonCsv.FORMER_FIRST_COLUMNS);
    }

    /** Measures bear a mark of their own; damaged ones are known by the result beside them. */
    private static boolean areMeasures(Path file) {
        return OwnFile.bears(file, CaptureStore.MARK) || OwnFile.bears(file.resolveSibling(RESULT), JSON_MARK);
    }

    /** Names in the output folder that no capture's folder may have. */
    static Set<String> reserved() {
        Set<String> names = new TreeSet<>(Set.of(OutputFolder.LOCK));
        ofTheBatch().forEach(file -> names.add(file.name()));
        return names;
    }
}
