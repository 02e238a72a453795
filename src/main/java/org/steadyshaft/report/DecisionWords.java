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
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Work;
import org.steadyshaft.compare.WorkCheck;

/** The decision in words: what is proven, what is not, and what to record next. */
final class DecisionWords {
    private static final int MOST_DIFFERENCES = 8;

    private final Comparison comparison;
    private final List<Standing> standings;

    DecisionWords(Comparison comparison) {
        this.comparison = comparison;
        this.standings = standings(comparison);
    }

    /** What a work says of a circuit, taking all its bands, loads and measures together. */
    record Standing(
            Work work, String circuit, WorkCheck.Status status, List<WorkCheck> reasons, Optional<Double> fromRpm) {}

    /** Every work that some runs were made for, with every circuit that ran for it. */
    List<Standing> standings() {
        return standings;
    }

    private static List<Standing> standings(Comparison comparison) {
        Map<List<String>, List<WorkCheck>> byCircuit = new LinkedHashMap<>();
        Map<String, Work> works = new LinkedHashMap<>();
        for (WorkCheck check : comparison.checks()) {
            works.put(check.work().name(), check.work());
            byCircuit
                    .computeIfAbsent(List.of(check.work().name(), check.circuit()), k -> new ArrayList<>())
                    .add(check);
        }
        List<Standing> standings = new ArrayList<>();
        byCircuit.forEach((key, checks) -> standings.add(standing(works.get(key.get(0)), key.get(1), checks)));
        return standings;
    }

    private static Standing standing(Work work, String circuit, List<WorkCheck> checks) {
        List<WorkCheck> failed = with(checks, WorkCheck.Status.FAIL);
        List<WorkCheck> open = with(checks, WorkCheck.Status.NOT_PROVEN);
        WorkCheck.Status status = !failed.isEmpty()
                ? WorkCheck.Status.FAIL
                : open.isEmpty() ? WorkCheck.Status.PASS : WorkCheck.Status.NOT_PROVEN;
        return new Standing(work, circuit, status, failed.isEmpty() ? open : failed, lowest(checks));
    }

    private static List<WorkCheck> with(List<WorkCheck> checks, WorkCheck.Status status) {
        return checks.stream().filter(c -> c.status() == status).toList();
    }

    /** Lower end of the lowest band in which every check passes. */
    private static Optional<Double> lowest(List<WorkCheck> checks) {
        return checks.stream()
                .map(WorkCheck::band)
                .distinct()
                .sorted()
                .filter(band -> checks.stream()
                        .filter(c -> c.band().equals(band))
                        .allMatch(c -> c.status() == WorkCheck.Status.PASS))
                .map(band -> band.fromRpm())
                .findFirst();
    }

    /** One sentence that holds if the reader reads no further. */
    String headline() {
        for (Work work : comparison.works()) {
            List<Standing> of = standings.stream()
                    .filter(s -> s.work().name().equals(work.name()))
                    .toList();
            if (of.isEmpty()) {
                continue;
            }
            List<String> pass = names(of, WorkCheck.Status.PASS);
            List<String> open = names(of, WorkCheck.Status.NOT_PROVEN);
            List<String> fail = names(of, WorkCheck.Status.FAIL);
            String forWork = "For " + work.title() + ": ";
            if (!pass.isEmpty()) {
                return forWork + list(pass) + (pass.size() == 1 ? " is" : " are") + " proven to do"
                        + (fail.isEmpty()
                                ? "."
                                : "; " + list(fail) + (fail.size() == 1 ? " is" : " are") + " proven not to.");
            }
            if (!open.isEmpty()) {
                return forWork + "no circuit is proven to do yet; " + list(open) + " may"
                        + (fail.isEmpty() ? "" : ", " + list(fail) + (fail.size() == 1 ? " does" : " do") + " not")
                        + ". More minutes of recording decide.";
            }
            return forWork + "every circuit is proven not to do.";
        }
        return "No limits apply to these speeds; below is who is better in what.";
    }

    private static List<String> names(List<Standing> standings, WorkCheck.Status status) {
        return standings.stream()
                .filter(s -> s.status() == status)
                .map(Standing::circuit)
                .toList();
    }

    private static String list(List<String> names) {
        if (names.size() == 1) {
            return names.get(0);
        }
        return String.join(", ", names.subList(0, names.size() - 1)) + " and " + names.get(names.size() - 1);
    }

    /** What is proven between circuits, the largest ratios first, then what is undecided. */
    List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        List<Difference> proven = comparison.differences().stream()
                .filter(d -> d.better().isPresent())
                .sorted(Comparator.comparingDouble(d -> -weight(d)))
                .toList();
        proven.stream().limit(MOST_DIFFERENCES).forEach(d -> sentences.add(sentence(d)));
        long undecided = count(Difference.Verdict.UNDECIDED);
        long unlike = count(Difference.Verdict.NOT_COMPARABLE);
        if (proven.size() > MOST_DIFFERENCES) {
            sentences.add(
                    "And " + (proven.size() - MOST_DIFFERENCES) + " more proven differences, in the table below.");
        }
        if (undecided > 0) {
            sentences.add(undecided + " of " + comparison.differences().size()
                    + " comparisons are undecided: the difference is within what chance does.");
        }
        if (unlike > 0) {
            sentences.add(unlike + " of " + comparison.differences().size()
                    + " are not comparable: a swing at the mains cannot be told on one side, or the figures hold over other bands; the table says"
                    + " where and why.");
        }
        next().ifPresent(sentences::add);
        return sentences;
    }

    private long count(Difference.Verdict verdict) {
        return comparison.differences().stream()
                .filter(d -> d.verdict() == verdict)
                .count();
    }

    /** How much a difference matters: against the first limit on its measure, else 0. */
    private double weight(Difference d) {
        return comparison.works().stream()
                .filter(w -> w.most().getOrDefault(d.measure(), 0.0) > 0)
                .findFirst()
                .map(w -> Math.abs(d.firstValue() - d.secondValue()) / w.most().get(d.measure()))
                .orElse(0.0);
    }

    private static String sentence(Difference d) {
        boolean first = d.verdict() == Difference.Verdict.FIRST_BETTER;
        Measure measure = d.measure();
        return String.format(
                Locale.ROOT,
                "%s is better than %s in %s: %s against %s %s (%s, load: %s).",
                first ? d.first() : d.second(),
                first ? d.second() : d.first(),
                measure.title(),
                Numbers.significant(first ? d.firstValue() : d.secondValue(), 2),
                Numbers.significant(first ? d.secondValue() : d.firstValue(), 2),
                measure.unit(),
                d.band().words(),
                load(d.load()));
    }

    /** For the first work that something is open for: the circuit that more minutes would prove soonest. */
    private Optional<String> next() {
        for (Work work : comparison.works()) {
            Optional<String> next = standings.stream()
                    .filter(s -> s.work().name().equals(work.name()))
                    .filter(s -> s.status() == WorkCheck.Status.NOT_PROVEN)
                    .filter(s ->
                            s.reasons().stream().allMatch(c -> c.moreMinutes().isPresent()))
                    .min(Comparator.comparingDouble(DecisionWords::longest))
                    .map(DecisionWords::recordNext);
            if (next.isPresent()) {
                return next;
            }
        }
        return Optional.empty();
    }

    private static double longest(Standing standing) {
        return standing.reasons().stream()
                .mapToDouble(c -> c.moreMinutes().orElse(0.0))
                .max()
                .orElse(0);
    }

    private static String recordNext(Standing standing) {
        List<String> where = standing.reasons().stream()
                .map(c -> c.band().words() + (c.load().isEmpty() ? "" : " (load: " + c.load() + ")"))
                .distinct()
                .toList();
        return "What to record next: " + standing.circuit() + " for " + span(longest(standing))
                + " more at each of these speeds: " + list(where)
                + ". If it stays as it was, that proves it good enough for "
                + standing.work().title() + ".";
    }

    /** The load as the run sheet has it. */
    static String load(String load) {
        return load.isEmpty() ? "not said" : load;
    }

    /** A span of time rounded up, so that it is enough: seconds below two minutes. */
    static String span(double minutes) {
        return minutes < 2
                ? String.format(Locale.ROOT, "%.0f s", Math.ceil(60 * minutes))
                : String.format(Locale.ROOT, "%.0f min", Math.ceil(minutes));
    }
}
