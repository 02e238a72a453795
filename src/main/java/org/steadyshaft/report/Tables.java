package org.steadyshaft.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.file.SpreadsheetText;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.stability.Alarm;

/** Writes the CSV files of a capture. */
final class Tables {
    private static final CSVFormat FORMAT =
            CSVFormat.DEFAULT.builder().setRecordSeparator('\n').get();

    /** Rows are handed on in blocks of about so many characters, without a string each; a row has far fewer. */
    private static final int BLOCK_CHARACTERS = 8192;

    static final String TRACK_COLUMNS = "time_s,speed_rpm";
    static final String EVENT_COLUMNS = "kind,start_s,peak_s,end_s,peak_percent,likely_cause";

    private Tables() {}

    /** One row a cycle: its middle and its speed. */
    static void track(SpeedTrack track, Writer out) throws IOException {
        out.write(TRACK_COLUMNS + "\n");
        StringBuilder rows = new StringBuilder(2 * BLOCK_CHARACTERS);
        char[] block = new char[2 * BLOCK_CHARACTERS];
        for (int i = 0; i < track.size(); i++) {
            Numbers.appendFixed(rows, track.timeSeconds(i), 6);
            rows.append(',');
            Numbers.appendMachine(rows, track.speedRpm(i));
            rows.append('\n');
            if (rows.length() >= BLOCK_CHARACTERS || i + 1 == track.size()) {
                rows.getChars(0, rows.length(), block, 0);
                out.write(block, 0, rows.length());
                rows.setLength(0);
            }
        }
    }

    /** One row an event. */
    static void events(Rotation rotation, Writer out) throws IOException {
        CSVPrinter printer = new CSVPrinter(out, FORMAT);
        printer.printRecord((Object[]) EVENT_COLUMNS.split(","));
        for (Blip blip : rotation.blips().map(Blips::events).orElse(List.of())) {
            printer.printRecord(
                    "blip",
                    Numbers.fixed(blip.fromSeconds(), 4),
                    Numbers.fixed(blip.peakSeconds(), 4),
                    Numbers.fixed(blip.toSeconds(), 4),
                    Numbers.fixed(blip.peakPercent(), 3),
                    blip.cause().word());
        }
        for (Step step : rotation.steps()) {
            printer.printRecord("step", Numbers.fixed(step.timeSeconds(), 4), "", "", "", "set-point");
        }
        for (LoadEvent event : rotation.loadEvents()) {
            printer.printRecord(
                    "load",
                    Numbers.fixed(event.timeSeconds(), 4),
                    "",
                    "",
                    Numbers.fixed(-event.dipPercent(), 3),
                    event.dipPercent() > 0 ? "load put on" : "load taken off");
        }
        for (Alarm alarm : rotation.alarms()) {
            printer.printRecord(
                    "alarm",
                    Numbers.fixed(alarm.where().fromSeconds(), 4),
                    "",
                    Numbers.fixed(alarm.where().toSeconds(), 4),
                    "",
                    alarm.code().name());
        }
        printer.flush();
    }

    /** One row a capture, with every column that any run sheet had. */
    static void summary(List<CaptureSummary> captures, Writer out) throws IOException {
        CSVPrinter printer = new CSVPrinter(out, FORMAT);
        List<String> others = captures.stream()
                .flatMap(c -> c.label().others().keySet().stream())
                .distinct()
                .toList();
        printer.printRecord(CaptureSummary.headings(others).stream()
                .map(SpreadsheetText::of)
                .toList());
        for (CaptureSummary capture : captures) {
            printer.printRecord(
                    capture.cells(others).stream().map(SpreadsheetText::of).toList());
        }
        printer.flush();
    }
}
