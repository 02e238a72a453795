package org.steadyshaft.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.HeldWords;
import org.steadyshaft.signal.Grade;
import picocli.CommandLine.Help.Ansi.Style;

/** The table at the end of a run: a line a capture, as wide as the screen at most, and a line of all together. */
final class SummaryTable {
    private static final String GAP = "  ";

    private static final int CAPTURE = 0;
    private static final int HELD = 1;
    private static final int RPM = 2;
    private static final int BLIPS = 4;
    private static final int RECORDING = 5;
    private static final int CIRCUIT = 6;

    /** Names are made narrower down to so many characters. */
    private static final int FEWEST = 10;

    /** No name takes more. */
    private static final int MOST = 28;

    private SummaryTable() {}

    static void print(List<CaptureSummary> summaries, Screen screen, PrintWriter out) {
        List<String[]> rows = new ArrayList<>();
        rows.add(new String[] {"capture", "speed held", "rpm", "ripple %", "blips", "recording", "circuit"});
        summaries.forEach(s -> rows.add(row(s)));
        int[] widths = widths(rows, screen.columns());
        for (int r = 0; r < rows.size(); r++) {
            out.println(line(rows.get(r), widths, r == 0 ? Screen.NONE : screen, r == 0 ? null : summaries.get(r - 1)));
        }
        out.println(together(summaries));
    }

    private static String[] row(CaptureSummary summary) {
        return new String[] {
            shortened(summary.folder(), MOST),
            summary.heldWord(),
            summary.speedText(),
            summary.rmsText(),
            summary.blipsText(),
            summary.gradeWord(),
            shortened(summary.label().circuit(), MOST)
        };
    }

    /** The widths of the columns; 0 for the circuit where there is no room for it. */
    private static int[] widths(List<String[]> rows, int columns) {
        int[] widths = new int[rows.get(0).length];
        for (String[] row : rows) {
            for (int c = 0; c < widths.length; c++) {
                widths[c] = Math.max(widths[c], row[c].length());
            }
        }
        widths[CIRCUIT] = narrowed(widths, CIRCUIT, columns);
        if (over(widths, columns) > 0) {
            widths[CIRCUIT] = 0;
        }
        widths[CAPTURE] = narrowed(widths, CAPTURE, columns);
        return widths;
    }

    private static int over(int[] widths, int columns) {
        long shown = Arrays.stream(widths).filter(w -> w > 0).count();
        return Arrays.stream(widths).sum() + (int) (GAP.length() * (shown - 1)) - columns;
    }

    private static int narrowed(int[] widths, int column, int columns) {
        return Math.max(Math.min(FEWEST, widths[column]), widths[column] - Math.max(0, over(widths, columns)));
    }

    private static String line(String[] row, int[] widths, Screen screen, CaptureSummary summary) {
        StringBuilder line = new StringBuilder();
        for (int c = 0; c < widths.length; c++) {
            String text = widths[c] == 0 ? "" : shortened(row[c], widths[c]);
            String pad = " ".repeat(widths[c] - text.length());
            String shown = c == HELD && summary != null
                    ? screen.in(colour(summary.held()), text)
                    : c == RECORDING && summary != null ? screen.in(colour(summary.grade()), text) : text;
            line.append(c >= RPM && c <= BLIPS ? pad + shown : shown + pad).append(GAP);
        }
        return line.toString().stripTrailing();
    }

    private static Style colour(SpeedHeld held) {
        return switch (held) {
            case YES -> Style.fg_green;
            case MOSTLY, CANNOT_TELL -> Style.fg_yellow;
            case NO, RUNAWAY -> Style.fg_red;
        };
    }

    private static Style colour(Grade grade) {
        return switch (grade) {
            case GOOD -> Style.fg_green;
            case DOUBTFUL -> Style.fg_yellow;
            case UNUSABLE -> Style.fg_red;
        };
    }

    /** "31 captures: 9 hold their speed, 12 mostly hold it, 8 do NOT hold their speed, 2 RAN AWAY". */
    private static String together(List<CaptureSummary> summaries) {
        String counts = Arrays.stream(SpeedHeld.values())
                .map(held -> counted(
                        held, summaries.stream().filter(s -> s.held() == held).count()))
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining(", "));
        return (summaries.size() == 1 ? "1 capture: " : summaries.size() + " captures: ") + counts;
    }

    private static String counted(SpeedHeld held, long count) {
        return count == 0 ? "" : count + " " + HeldWords.counted(held, count);
    }

    /** Names of one batch often begin alike: beginning and end stay. */
    private static String shortened(String text, int most) {
        if (text.length() <= most) {
            return text;
        }
        int end = (most - 2) / 2;
        return text.substring(0, most - 2 - end) + ".." + text.substring(text.length() - end);
    }
}
