package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Holding;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Standing;
import org.steadyshaft.compare.WorkCheck;

/** What to record next so that what is open for a work becomes decided; circuits that fail already are left alone. */
final class RecordNext {
    private static final int MOST_POINTS = 4;

    /** So many steps tell how a circuit settles: fewer leave a wide interval (a figure of our own). */
    private static final int STEPS = 5;

    private final Comparison comparison;
    private final List<Standing> standings;

    RecordNext(Comparison comparison, List<Standing> standings) {
        this.comparison = comparison;
        this.standings =
                standings.stream().filter(s -> s.holding() != Holding.DOES_NOT).toList();
    }

    List<DecisionWords.Point> points() {
        Map<String, List<String>> byWish = new LinkedHashMap<>();
        for (Standing standing : standings) {
            for (String wish : wishes(standing)) {
                byWish.computeIfAbsent(wish, w -> new ArrayList<>()).add(standing.circuit());
            }
        }
        List<DecisionWords.Point> points = new ArrayList<>();
        byWish.forEach((wish, circuits) -> {
            if (points.size() < MOST_POINTS) {
                points.add(new DecisionWords.Point(CheckWords.list(circuits), wish + "."));
            }
        });
        if (byWish.size() > MOST_POINTS) {
            points.add(DecisionWords.Point.of("And " + (byWish.size() - MOST_POINTS) + " more, in the tables below."));
        }
        unmatched().map(DecisionWords.Point::of).ifPresent(points::add);
        return points;
    }

    private static List<String> wishes(Standing standing) {
        List<String> wishes = new ArrayList<>();
        longer(standing).ifPresent(wishes::add);
        for (WorkCheck check : standing.with(WorkCheck.Status.CANNOT_TELL)) {
            wishes.add(
                    "again, so that " + check.measure().title() + " can be told" + at(check) + ": " + check.reason());
        }
        for (WorkCheck check : standing.with(WorkCheck.Status.NOT_PROVEN)) {
            if (check.moreMinutes().isEmpty() && !check.reason().isEmpty()) {
                wishes.add("again, so that " + check.measure().title() + " can be proven" + at(check) + ": "
                        + check.reason());
            }
        }
        for (WorkCheck check : standing.with(WorkCheck.Status.NOT_RECORDED)) {
            wishes.add(
                    check.measure() == Measure.SAG
                            ? "one setting light and again under load, for the sag"
                            : "a step of the set-point, " + STEPS + " times, for the settling time");
        }
        if (!standing.missing().isEmpty()) {
            wishes.add("at the speeds and loads at which only others were recorded: "
                    + CheckWords.list(
                            standing.missing().stream().map(CheckWords::level).toList()));
        }
        return wishes;
    }

    private static String at(WorkCheck check) {
        return check.group().map(g -> " (" + CheckWords.setting(g) + ")").orElse("");
    }

    /** The longest of the times that single limits need, with the settings. */
    private static Optional<String> longer(Standing standing) {
        double longest = 0;
        List<Group> where = new ArrayList<>();
        for (WorkCheck check : standing.with(WorkCheck.Status.NOT_PROVEN)) {
            if (check.moreMinutes().isPresent() && check.group().isPresent()) {
                longest = Math.max(longest, check.moreMinutes().get());
                where.add(check.group().get());
            }
        }
        return where.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        CheckWords.span(longest) + " more at each of these settings (" + DecisionWords.settings(where)
                                + ")" + "; if it stays as it was, that proves it good enough there");
    }

    /** Groups that no circuit could be compared with: told once, with the nearest. */
    private Optional<String> unmatched() {
        if (comparison.unmatched().isEmpty()) {
            return Optional.empty();
        }
        Comparison.Unmatched first = comparison.unmatched().get(0);
        int more = comparison.unmatched().size() - 1;
        return Optional.of(
                first.group().circuit() + " at " + CheckWords.where(first.group()) + " is compared with nothing: "
                        + first.reason() + (more > 0 ? ". So are " + more + " more" : "") + ".");
    }
}
