package org.steadyshaft.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.report.CaptureSummary;

/** The table at the end of a run: a line a capture. */
final class SummaryTable {
    private static final int NAME = 28;
    private static final int CIRCUIT = 24;

    private SummaryTable() {}

    static void print(List<CaptureSummary> summaries, PrintWriter out) {
        List<String[]> rows = new ArrayList<>();
        rows.add(new String[] {"capture", "circuit", "speed held", "recording", "rpm", "ripple % rms", "blips"});
        for (CaptureSummary summary : summaries) {
            rows.add(new String[] {
                shortened(summary.folder(), NAME),
                shortened(summary.label().circuit(), CIRCUIT),
                summary.heldWord(),
                summary.gradeWord(),
                summary.speedText(),
                summary.rmsText(),
                summary.blipsText()
            });
        }
        int[] widths = new int[rows.get(0).length];
        for (String[] row : rows) {
            for (int c = 0; c < widths.length; c++) {
                widths[c] = Math.max(widths[c], row[c].length());
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder();
            for (int c = 0; c < widths.length; c++) {
                String pad = " ".repeat(widths[c] - row[c].length());
                line.append(c >= 4 ? pad + row[c] : row[c] + pad).append("  ");
            }
            out.println(line.toString().stripTrailing());
        }
    }

    private static String shortened(String text, int most) {
        return text.length() <= most ? text : text.substring(0, most - 3) + "...";
    }
}
