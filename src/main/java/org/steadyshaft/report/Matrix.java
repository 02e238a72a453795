package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Holding;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Work;
import org.steadyshaft.compare.WorkCheck;

/**
 * Circuits by speeds and loads: whether each holds what the work needs there.
 *
 * @param columns headings, by speed, light before loaded
 * @param rows a row a circuit
 * @param others titles of works that columns are judged by, other than the first; for a note
 */
public record Matrix(List<String> columns, List<Row> rows, List<String> others) {
    /** A circuit with a list of entries for every column; an empty one where it was not recorded. */
    public record Row(String circuit, List<Field> fields) {}

    /** Entries of one column; a circuit may have run at two settings there. */
    public record Field(List<Entry> entries) {
        /** The worst entry's status for colour. */
        public String status() {
            return entries.isEmpty() ? "none" : entries.get(0).status();
        }
    }

    /**
     * What a group holds.
     *
     * @param status for a colour: pass, mostly, fail, open or none
     * @param sign its sign
     * @param word its word
     * @param speed setting and measured speed
     * @param why the gravest reason, a few words; may be empty
     * @param links pages of its captures
     */
    public record Entry(String status, String sign, String word, String speed, String why, List<Link> links) {}

    /** A capture's page. */
    public record Link(String href, String name) {}

    /** More columns than this do not fit beside one another on paper. */
    private static final int MOST_COLUMNS = 8;

    /** Whether paper needs it as a list. */
    public boolean isWide() {
        return columns.size() > MOST_COLUMNS;
    }

    static Matrix of(Comparison comparison) {
        List<Group> columns = new ArrayList<>();
        for (Group group : comparison.groups()) {
            if (columns.stream().noneMatch(group::isBeside)) {
                columns.add(group);
            }
        }
        List<Row> rows = new ArrayList<>();
        List<String> others = new ArrayList<>();
        for (String circuit : comparison.circuits()) {
            List<Field> fields = new ArrayList<>();
            for (Group column : columns) {
                fields.add(new Field(comparison.groups().stream()
                        .filter(g -> g.circuit().equals(circuit) && g.isBeside(column))
                        .sorted(Comparator.comparing(g -> holding(comparison, g)))
                        .map(g -> entry(comparison, g, others))
                        .toList()));
            }
            rows.add(new Row(circuit, fields));
        }
        return new Matrix(
                columns.stream().map(CheckWords::level).toList(),
                rows,
                others.stream().distinct().toList());
    }

    private static Holding holding(Comparison comparison, Group group) {
        return comparison.workOf(group).map(w -> comparison.holding(w, group)).orElse(Holding.NOT_RECORDED);
    }

    private static Entry entry(Comparison comparison, Group group, List<String> others) {
        Optional<Work> work = comparison.workOf(group);
        String settings = String.join(" or ", group.settings());
        String speed = (settings.isEmpty() ? "" : settings + ": ") + Numbers.fixed(group.meanRpm(), 0) + " rpm";
        List<Link> links = new ArrayList<>();
        group.runs().forEach(r -> links.add(link(r)));
        group.leftOut().forEach(r -> links.add(link(r)));
        if (work.isEmpty()) {
            return new Entry("none", "", "no limit", speed, "", links);
        }
        if (!work.equals(comparison.mainWork())) {
            others.add(work.get().title());
        }
        Holding holding = holding(comparison, group);
        String doubt = group.doubtful().isEmpty() ? "" : "doubtful recording";
        String why = why(comparison, work.get(), group, holding);
        return new Entry(
                status(holding),
                holding.sign(),
                holding.word(),
                speed,
                why.isEmpty() || doubt.isEmpty() ? why + doubt : why + "; " + doubt,
                links);
    }

    private static Link link(Run run) {
        return new Link(CaptureSummary.href(run.name()), run.name());
    }

    private static String status(Holding holding) {
        return switch (holding) {
            case HOLDS -> "pass";
            case MOSTLY -> "mostly";
            case DOES_NOT -> "fail";
            case CANNOT_TELL -> "open";
            case NOT_RECORDED -> "none";
        };
    }

    /** The measure that goes furthest beyond its limit, or the one that cannot be told. */
    private static String why(Comparison comparison, Work work, Group group, Holding holding) {
        if (holding == Holding.HOLDS) {
            return "";
        }
        if (group.ranAway()) {
            return "it ran away";
        }
        WorkCheck.Status wanted = holding == Holding.DOES_NOT ? WorkCheck.Status.FAIL : WorkCheck.Status.NOT_PROVEN;
        List<WorkCheck> of = comparison.checks(work, group);
        return of.stream()
                .filter(c -> c.status() == wanted)
                .max(Comparator.comparingDouble(WorkCheck::shareOfLimit))
                .map(Matrix::brief)
                .or(() -> of.stream()
                        .filter(c -> c.status() == WorkCheck.Status.CANNOT_TELL)
                        .findFirst()
                        .map(c -> c.measure().title() + " does not show"))
                .orElse("");
    }

    private static String brief(WorkCheck check) {
        if (check.status() == WorkCheck.Status.NOT_PROVEN && check.shareOfLimit() <= 1) {
            return check.measure().title() + " not proven yet"
                    + check.moreMinutes()
                            .map(m -> ": record " + CheckWords.span(m) + " more")
                            .orElse("");
        }
        WorkCheck.Figure f = check.figure().orElseThrow();
        return check.measure().title() + " " + CheckWords.amount(check.measure(), f.value(), f.low95(), f.high95());
    }
}
