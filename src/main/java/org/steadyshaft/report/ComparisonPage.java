package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.report.ChartParts.Chart;

/**
 * Everything the comparison page shows, as text ready to be placed.
 *
 * @param headline the decision in one sentence
 * @param sentences what is proven, what is not, what to record next
 * @param own whether the limits are the user's own
 * @param simulated whether captures were simulated
 * @param standings rows of the table of works
 * @param tables measures, one table for each band and load
 * @param changes circuits before and after a change
 * @param differences rows of all comparisons
 * @param sags rows of the table of sags
 * @param multiples small traces of all runs on one scale
 * @param scalePercent what the height of such a trace spans, to either side of the mean
 * @param charts pictures
 */
public record ComparisonPage(
        String headline,
        List<String> sentences,
        boolean own,
        boolean simulated,
        List<Row> standings,
        List<Table> tables,
        List<String> changes,
        List<Row> differences,
        List<Row> sags,
        List<Multiple> multiples,
        String scalePercent,
        List<Chart> charts) {
    /** Cells of a table's row, the first naming it; {@code status} is pass, fail, open or empty. */
    public record Row(List<String> cells, String status) {}

    /** Measures of all circuits in one band with one load. */
    public record Table(String heading, List<String> measures, List<TableRow> rows) {}

    /** A circuit's row: its cells, and which of them is the best. */
    public record TableRow(String circuit, List<Cell> cells) {}

    /** A value with its interval; {@code order} sorts. */
    public record Cell(String text, String order, boolean best) {}

    /** A small trace. */
    public record Multiple(String title, String href, String path, String words) {}

    private static final List<Measure> SHOWN = List.of(
            Measure.RIPPLE,
            Measure.SWING,
            Measure.TWICE_MAINS,
            Measure.WANDER,
            Measure.BLIPS,
            Measure.SETTLING,
            Measure.HUNTING);

    /** Traces span this percentile of their departures, so that one start does not flatten all. */
    private static final double WIDEST_PERCENT = 12;

    private static final double NARROWEST_PERCENT = 1;

    static ComparisonPage of(Comparison comparison) {
        DecisionWords words = new DecisionWords(comparison);
        double scale = scale(comparison.runs());
        return new ComparisonPage(
                words.headline(),
                words.sentences(),
                comparison.own(),
                comparison.runs().stream().anyMatch(r -> r.label().isSimulated()),
                words.standings().stream().map(ComparisonPage::row).toList(),
                tables(comparison),
                changes(comparison),
                comparison.differences().stream().map(ComparisonPage::row).toList(),
                comparison.sags().stream().map(ComparisonPage::row).toList(),
                comparison.runs().stream().map(run -> multiple(run, scale)).toList(),
                Numbers.significant(scale, 2),
                new ComparisonCharts(comparison).all());
    }

    private static Row row(DecisionWords.Standing standing) {
        String reason = standing.reasons().stream()
                .limit(3)
                .map(ComparisonPage::reason)
                .reduce((a, b) -> a + "; " + b)
                .orElse("every measure lies below its limit");
        return new Row(
                List.of(
                        standing.work().title(),
                        standing.circuit(),
                        standing.status().word(),
                        reason,
                        standing.fromRpm()
                                .map(rpm -> Numbers.fixed(rpm, 0) + " rpm")
                                .orElse("nowhere proven")),
                standing.status() == WorkCheck.Status.NOT_PROVEN
                        ? "open"
                        : standing.status().word());
    }

    private static String reason(WorkCheck check) {
        return String.format(
                Locale.ROOT,
                "%s %s %s (limit %s, margin %.0f %%) at %s, load %s%s",
                check.measure().title(),
                Numbers.significant(check.value(), 2),
                check.measure().unit(),
                Numbers.significant(check.most(), 2),
                check.marginPercent(),
                check.band().words(),
                DecisionWords.load(check.load()),
                check.moreMinutes()
                        .map(m -> ": " + DecisionWords.span(m) + " more may prove it")
                        .orElse(""));
    }

    private static String outcome(Difference d) {
        return d.better()
                .map(b -> b + " is better")
                .orElse(d.reason().isEmpty() ? d.verdict().word() : d.verdict().word() + ": " + d.reason());
    }

    private static Row row(Difference d) {
        return new Row(
                List.of(
                        d.measure().title(),
                        d.band().words(),
                        DecisionWords.load(d.load()),
                        d.first() + ": " + Numbers.significant(d.firstValue(), 3),
                        d.second() + ": " + Numbers.significant(d.secondValue(), 3),
                        outcome(d),
                        Numbers.significant(d.adjustedP(), 2),
                        d.moreMinutes()
                                .map(m -> DecisionWords.span(m) + " more of each")
                                .orElse(""),
                        // minutes to sort by: a column that holds seconds and minutes
                        d.moreMinutes().map(Numbers::machine).orElse("")),
                d.better().isPresent() ? "pass" : "open");
    }

    private static Row row(Sag sag) {
        return new Row(
                List.of(
                        sag.circuit(),
                        sag.setting(),
                        sag.load(),
                        Numbers.fixed(sag.lightRpm(), 1),
                        Numbers.fixed(sag.loadedRpm(), 1),
                        Numbers.withUncertainty(
                                sag.regulation().percent(),
                                Math.max(1e-9, 2 * sag.regulation().standardUncertaintyPercent()))),
                "");
    }

    private static List<Table> tables(Comparison comparison) {
        Map<String, List<Group>> together = new LinkedHashMap<>();
        for (Group group : comparison.groups()) {
            String heading = group.band().words() + ", load: " + DecisionWords.load(group.load());
            together.computeIfAbsent(heading, k -> new ArrayList<>()).add(group);
        }
        List<Table> tables = new ArrayList<>();
        together.forEach((heading, groups) -> tables.add(table(heading, groups)));
        return tables;
    }

    private static Table table(String heading, List<Group> groups) {
        List<Measure> measures = SHOWN.stream()
                .filter(m -> groups.stream().anyMatch(g -> g.estimate(m).isPresent()))
                .toList();
        List<TableRow> rows = new ArrayList<>();
        for (Group group : groups) {
            List<Cell> cells = new ArrayList<>();
            cells.add(new Cell(Numbers.fixed(group.meanRpm(), 1), Numbers.machine(group.meanRpm()), false));
            cells.add(new Cell(
                    Integer.toString(group.runs().size()),
                    Integer.toString(group.runs().size()),
                    false));
            for (Measure measure : measures) {
                cells.add(cell(group.estimate(measure), best(groups, measure)));
            }
            rows.add(new TableRow(group.circuit(), cells));
        }
        List<String> heads = new ArrayList<>(List.of("Speed rpm", "Runs"));
        measures.forEach(m -> heads.add(m.title() + ", " + m.unit()));
        return new Table(heading, heads, rows);
    }

    /** The smallest value where several circuits have one. */
    private static Optional<Double> best(List<Group> groups, Measure measure) {
        List<Double> values = groups.stream()
                .flatMap(g -> g.estimate(measure).stream())
                .map(Estimate::value)
                .sorted(Comparator.naturalOrder())
                .toList();
        return values.size() > 1 && values.get(0) < values.get(1) ? Optional.of(values.get(0)) : Optional.empty();
    }

    private static Cell cell(Optional<Estimate> estimate, Optional<Double> best) {
        if (estimate.isEmpty()) {
            return new Cell("", "", false);
        }
        Estimate e = estimate.get();
        String interval = e.low95() < e.high95()
                ? " (" + Numbers.significant(e.low95(), 2) + " to " + Numbers.significant(e.high95(), 2) + ")"
                : "";
        String between = e.betweenRunsPercent()
                .map(p -> ", runs differ by " + Numbers.significant(p, 2) + " %")
                .orElse("");
        boolean isBest = best.isPresent() && best.get() == e.value();
        return new Cell(
                Numbers.significant(e.value(), 3) + interval + between + (isBest ? " - lowest" : ""),
                Numbers.machine(e.value()),
                isBest);
    }

    /** Pairs of the same circuit in two variants. */
    private static List<String> changes(Comparison comparison) {
        Map<String, String> base = new LinkedHashMap<>();
        comparison.runs().forEach(run -> base.put(run.circuit(), run.label().circuit()));
        List<String> sentences = new ArrayList<>();
        for (Difference d : comparison.differences()) {
            if (!d.first().equals(d.second()) && base.get(d.first()).equals(base.get(d.second()))) {
                sentences.add(String.format(
                        Locale.ROOT,
                        "%s, %s, load %s: %s %s %s, %s %s %s: %s.",
                        d.measure().title(),
                        d.band().words(),
                        DecisionWords.load(d.load()),
                        d.first(),
                        Numbers.significant(d.firstValue(), 3),
                        d.measure().unit(),
                        d.second(),
                        Numbers.significant(d.secondValue(), 3),
                        d.measure().unit(),
                        outcome(d)));
            }
        }
        return sentences;
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
        String title = run.circuit() + ", " + run.label().setting()
                + (run.label().load().isEmpty() ? "" : ", load " + run.label().load());
        return new Multiple(
                title,
                CaptureSummary.href(run.name()),
                path.toString(),
                Numbers.fixed(run.meanRpm(), 1) + " rpm, " + run.blips() + " blips in "
                        + Numbers.significant(run.blipMinutes(), 2) + " min");
    }
}
