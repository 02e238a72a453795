package org.steadyshaft.report;

import java.util.List;
import java.util.Locale;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Work;
import org.steadyshaft.report.ChartParts.Chart;

/**
 * Everything the comparison page shows, as text ready to be placed: the decision first, then the matrix and the pictures, then all
 * figures.
 *
 * @param headline the decision in one sentence
 * @param parts the decision, paragraph by paragraph
 * @param limits what the first work needs, in words; empty where none applies
 * @param simulated whether captures were simulated
 * @param matrix circuits by speeds and loads
 * @param strips pictures of values and limits
 * @param histories circuits before and after changes
 * @param multiples small traces of all runs on one scale
 * @param scalePercent what the height of such a trace spans, to either side of the mean
 * @param tables measures, one table for each level and load
 * @param checks rows of all limits
 * @param sags rows of the table of sags
 * @param differences rows of all comparisons
 * @param unmatched what was compared with nothing, and why
 * @param spectra pictures of the ripple by frequency
 */
public record ComparisonPage(
        String headline,
        List<DecisionPart> parts,
        String limits,
        boolean simulated,
        Matrix matrix,
        List<Strip> strips,
        List<History> histories,
        List<Multiple> multiples,
        String scalePercent,
        List<Table> tables,
        List<Row> checks,
        List<Row> sags,
        List<Row> differences,
        List<String> unmatched,
        List<Chart> spectra) {
    /** A paragraph of the decision: what it is about, and its points. */
    public record DecisionPart(String label, List<DecisionPoint> points) {}

    /** A point: what it is about, a circuit mostly or nothing, and what there is to say. */
    public record DecisionPoint(String about, String text) {}

    /** Cells of a table's row, the first naming it; {@code status} is pass, fail, open or empty. */
    public record Row(List<String> cells, String status) {}

    /** Measures of all circuits at about one speed with one load. */
    public record Table(String heading, List<String> measures, List<TableRow> rows) {}

    /** A circuit's row. */
    public record TableRow(String circuit, List<Cell> cells) {}

    /** A value with its interval, or why there is none; {@code order} sorts. */
    public record Cell(String text, String order) {}

    /** A small trace. */
    public record Multiple(String title, String href, String path, String words) {}

    /** More traces, and pictures of more groups, than this are left off paper: the page is to stay at four sheets. */
    private static final int MOST_PRINTED = 40;

    /** Traces span this percentile of their departures, so that one start does not flatten all. */
    private static final double WIDEST_PERCENT = 12;

    private static final double NARROWEST_PERCENT = 1;

    static ComparisonPage of(Comparison comparison) {
        DecisionWords words = new DecisionWords(comparison);
        double scale = scale(comparison.runs());
        return new ComparisonPage(
                words.headline(),
                words.parts().stream()
                        .map(p -> new DecisionPart(
                                p.label(),
                                p.points().stream()
                                        .map(q -> new DecisionPoint(q.about(), q.text()))
                                        .toList()))
                        .toList(),
                comparison.mainWork().map(ComparisonPage::limits).orElse(""),
                comparison.runs().stream().anyMatch(r -> r.label().isSimulated()),
                Matrix.of(comparison),
                new Strips(comparison).all(),
                History.of(comparison),
                comparison.runs().stream().map(run -> multiple(run, scale)).toList(),
                Numbers.significant(scale, 2),
                ComparisonTables.measures(comparison),
                ComparisonTables.limits(comparison),
                ComparisonTables.sags(comparison),
                ComparisonTables.differences(comparison),
                comparison.unmatched().stream()
                        .map(u -> u.group().circuit() + ", " + CheckWords.where(u.group()) + ": " + u.reason())
                        .toList(),
                new ComparisonCharts(comparison).spectra());
    }

    /** Whether the pictures are few enough for paper. */
    public boolean printsPictures() {
        return tables.stream().mapToInt(t -> t.rows().size()).sum() <= MOST_PRINTED;
    }

    /** Whether the small traces are few enough for paper. */
    public boolean printsTraces() {
        return multiples.size() <= MOST_PRINTED;
    }

    /** "400 to 2500 rpm: ripple, rms at most 0.5 %, ...". */
    private static String limits(Work work) {
        StringBuilder words = new StringBuilder(
                String.format(Locale.ROOT, "%.0f to %.0f rpm of the motor", work.fromRpm(), work.toRpm()));
        work.beltRatio()
                .ifPresent(r -> words.append(String.format(
                        Locale.ROOT, " (%.0f to %.0f at the driven wheel)", work.fromRpm() / r, work.toRpm() / r)));
        if (!work.loads().isEmpty()) {
            words.append(", load ").append(String.join(" or ", work.loads()));
        }
        String before = ": at most ";
        for (var limit : work.most().entrySet()) {
            words.append(before).append(CheckWords.allowed(limit.getKey(), limit.getValue()));
            before = ", ";
        }
        work.blipPercent()
                .ifPresent(p -> words.append("; blips count from ")
                        .append(CheckWords.limit(p))
                        .append(" % on"));
        return words.append('.').toString();
    }

    private static double scale(List<Run> runs) {
        double widest = NARROWEST_PERCENT;
        for (Run run : runs) {
            for (Run.Point point : run.trace()) {
                widest = Math.max(widest, Math.abs(100 * (point.y() / run.meanRpm() - 1)));
            }
        }
        return Math.min(WIDEST_PERCENT, widest);
    }

    /** A path in a field of 240 by 60; what leaves the scale is cut at its edge. */
    private static Multiple multiple(Run run, double scale) {
        double from = run.trace().get(0).x();
        double span = Math.max(1e-9, run.trace().get(run.trace().size() - 1).x() - from);
        StringBuilder path = new StringBuilder();
        for (Run.Point point : run.trace()) {
            double percent = 100 * (point.y() / run.meanRpm() - 1);
            double y = 30 - 29 * Math.max(-1, Math.min(1, percent / scale));
            path.append(String.format(
                    Locale.ROOT, "%s%.1f %.1f", path.length() == 0 ? "M" : "L", 240 * (point.x() - from) / span, y));
        }
        String setting =
                run.label().setting().isEmpty() ? "" : ", " + run.label().setting();
        String title =
                run.circuit() + setting + ", " + CheckWords.load(run.label().load());
        return new Multiple(
                title,
                CaptureSummary.href(run.name()),
                path.toString(),
                Numbers.fixed(run.meanRpm(), 0) + " rpm, "
                        + blips(run.jumps().events().size()) + " in "
                        + Numbers.significant(run.jumps().minutes(), 2) + " min"
                        + (run.trust().isDoubtful() ? ", doubtful recording" : ""));
    }

    private static String blips(int count) {
        return count == 1 ? "1 blip" : count + " blips";
    }
}
