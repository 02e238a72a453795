package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
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

/** The tables of the comparison page that are folded away: all figures, all limits, all tests. */
final class ComparisonTables {
    private static final List<Measure> SHOWN = List.of(
            Measure.RIPPLE,
            Measure.SWING,
            Measure.TWICE_MAINS,
            Measure.WANDER,
            Measure.BLIPS,
            Measure.SETTLING,
            Measure.HUNTING);

    private ComparisonTables() {}

    /** Measures of all circuits, one table for each level and load. */
    static List<ComparisonPage.Table> measures(Comparison comparison) {
        Map<String, List<Group>> together = new LinkedHashMap<>();
        for (Group group : comparison.groups()) {
            String heading = CheckWords.level(group);
            together.computeIfAbsent(heading, k -> new ArrayList<>()).add(group);
        }
        List<ComparisonPage.Table> tables = new ArrayList<>();
        together.forEach((heading, groups) -> tables.add(table(heading, groups)));
        return tables;
    }

    private static ComparisonPage.Table table(String heading, List<Group> groups) {
        List<Measure> measures = SHOWN.stream()
                .filter(m -> groups.stream()
                        .anyMatch(g -> g.estimate(m).isPresent() || g.untold().containsKey(m)))
                .toList();
        List<ComparisonPage.TableRow> rows = new ArrayList<>();
        for (Group group : groups) {
            List<ComparisonPage.Cell> cells = new ArrayList<>();
            cells.add(new ComparisonPage.Cell(Numbers.fixed(group.meanRpm(), 1), Numbers.machine(group.meanRpm())));
            cells.add(new ComparisonPage.Cell(
                    runs(group), Integer.toString(group.runs().size())));
            measures.forEach(m -> cells.add(cell(group, m)));
            rows.add(new ComparisonPage.TableRow(group.circuit(), cells));
        }
        List<String> heads = new ArrayList<>(List.of("Speed rpm", "Runs"));
        measures.forEach(m -> heads.add(m.title() + ", " + m.unit()));
        return new ComparisonPage.Table(heading, heads, rows);
    }

    private static String runs(Group group) {
        return group.runs().size()
                + (group.leftOut().isEmpty() ? "" : ", " + group.leftOut().size() + " left out")
                + (group.doubtful().isEmpty()
                        ? ""
                        : ", doubtful: "
                                + CheckWords.list(group.doubtful().stream()
                                        .map(CheckWords::doubtful)
                                        .toList()));
    }

    private static ComparisonPage.Cell cell(Group group, Measure measure) {
        Optional<Estimate> estimate = group.estimate(measure);
        if (estimate.isEmpty()) {
            return new ComparisonPage.Cell(group.untold().getOrDefault(measure, ""), "");
        }
        Estimate e = estimate.get();
        String text = CheckWords.withLimits(measure, e.value(), e.low95(), e.high95());
        String between = e.betweenRunsPercent()
                .map(p -> "; runs differ by " + Numbers.significant(p, 2) + " %")
                .orElse("");
        return new ComparisonPage.Cell(text + between, Numbers.machine(e.value()));
    }

    /** Every limit of every work. */
    static List<ComparisonPage.Row> limits(Comparison comparison) {
        return comparison.checks().stream().map(ComparisonTables::row).toList();
    }

    private static ComparisonPage.Row row(WorkCheck check) {
        String status = switch (check.status()) {
            case PASS -> "pass";
            case FAIL -> "fail";
            case NOT_PROVEN, CANNOT_TELL, NOT_RECORDED -> "open";
        };
        return new ComparisonPage.Row(
                List.of(
                        check.work().title(),
                        check.circuit(),
                        check.group()
                                .map(g -> CheckWords.setting(g) + " (" + Numbers.fixed(g.meanRpm(), 0) + " rpm)")
                                .orElse(""),
                        check.measure().title(),
                        check.figure()
                                .map(f -> CheckWords.withLimits(check.measure(), f.value(), f.low95(), f.high95())
                                        + ", " + CheckWords.margin(check))
                                .orElse("limit " + CheckWords.limit(check.most()) + " "
                                        + check.measure().unit()),
                        check.status().word() + (check.reason().isEmpty() ? "" : ": " + check.reason()),
                        check.moreMinutes()
                                .map(m -> CheckWords.span(m) + " more")
                                .orElse("")),
                status);
    }

    static String outcome(Difference d) {
        String word = d.better()
                .map(b -> b.circuit() + " is better")
                .orElse(d.verdict().word());
        return d.reason().isEmpty() ? word : word + ": " + d.reason();
    }

    /** A value with as many digits as the difference is worth. */
    static String beside(Difference d, double value) {
        return d.outcome()
                .map(t -> Numbers.within(value, t.low95(), t.high95()))
                .orElse(Numbers.significant(value, 2));
    }

    /** Every test, and what could not be tested. */
    static List<ComparisonPage.Row> differences(Comparison comparison) {
        return comparison.differences().stream().map(ComparisonTables::row).toList();
    }

    private static ComparisonPage.Row row(Difference d) {
        return new ComparisonPage.Row(
                List.of(
                        d.measure().title()
                                + (d.fromPercent() > 0
                                        ? " from " + Numbers.significant(d.fromPercent(), 2) + " % on"
                                        : ""),
                        CheckWords.load(d.load()),
                        side(d, d.first()),
                        side(d, d.second()),
                        outcome(d),
                        d.outcome()
                                .map(t -> Numbers.significant(t.adjustedP(), 2))
                                .orElse(""),
                        d.moreMinutes()
                                .map(m -> CheckWords.span(m) + " more of each")
                                .orElse(""),
                        // minutes to sort by: a column that holds seconds and minutes
                        d.moreMinutes().map(Numbers::machine).orElse("")),
                d.better().isPresent() ? "pass" : "open");
    }

    private static String side(Difference d, Difference.Side side) {
        return side.circuit() + ", " + Numbers.fixed(side.meanRpm(), 0) + " rpm: "
                + side.value().map(v -> beside(d, v)).orElse("cannot be told")
                + (side.doubtful().isEmpty() ? "" : " (doubtful recording)");
    }

    /** Light and loaded speeds. */
    static List<ComparisonPage.Row> sags(Comparison comparison) {
        return comparison.sags().stream().map(ComparisonTables::row).toList();
    }

    private static ComparisonPage.Row row(Sag sag) {
        boolean several = sag.runs().stream().map(Run::date).distinct().count() > 1
                || sag.runs().size() > 2;
        return new ComparisonPage.Row(
                List.of(
                        sag.circuit(),
                        sag.setting(),
                        sag.load(),
                        Numbers.fixed(sag.lightRpm(), 1),
                        Numbers.fixed(sag.loadedRpm(), 1),
                        Numbers.within(sag.regulation().percent(), sag.low95(), sag.high95())
                                + " ("
                                + Numbers.within(sag.low95(), sag.low95(), sag.high95())
                                + " to "
                                + Numbers.within(sag.high95(), sag.low95(), sag.high95())
                                + ")" + (several ? "" : ", one run each")),
                "");
    }
}
