package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Run;

/**
 * The changes of one circuit, in the order of their dates: each variant beside the one before it.
 *
 * @param circuit the circuit without its variants
 * @param steps from one variant to the next
 */
public record History(String circuit, List<Step> steps) {
    /**
     * A change.
     *
     * @param before the earlier variant, with its date
     * @param after the later one
     * @param verdict what it brought, in a sentence
     * @param rows what is proven
     * @param others how many comparisons do not matter, are undecided or were not possible
     */
    public record Step(String before, String after, String verdict, List<Row> rows, int others) {}

    /**
     * A measure at a speed and load: before, after, and what that means.
     *
     * @param status for a colour: pass or fail
     * @param beforePlace of a picture's scale [% of its width]
     * @param afterPlace the same of the value after the change
     * @param limitPlace the same of the limit; empty without one
     */
    public record Row(
            String measure,
            String where,
            String before,
            String after,
            String meaning,
            String status,
            String beforePlace,
            String afterPlace,
            String limitPlace) {}

    private static final double ROOM = 1.1;

    /** A variant as it first came. */
    private record Variant(String circuit, String name, String date) {
        String words() {
            String what = name.isEmpty() ? "as it was" : name;
            return date.isEmpty() ? what : what + " (" + date + ")";
        }
    }

    static List<History> of(Comparison comparison) {
        List<History> histories = new ArrayList<>();
        variants(comparison).forEach((base, order) -> {
            List<Step> steps = new ArrayList<>();
            for (int i = 1; i < order.size(); i++) {
                steps.add(step(comparison, order.get(i - 1), order.get(i)));
            }
            if (!steps.isEmpty()) {
                histories.add(new History(base, steps));
            }
        });
        return histories;
    }

    /** Circuits as they were before a change: to change them now says nothing about the circuit as it is. */
    static List<String> former(Comparison comparison) {
        return variants(comparison).values().stream()
                .flatMap(order -> order.stream().limit(order.size() - 1L))
                .map(Variant::circuit)
                .toList();
    }

    /** The variants of each circuit, in the order of their dates. */
    private static Map<String, List<Variant>> variants(Comparison comparison) {
        Map<String, Map<String, Variant>> byCircuit = new LinkedHashMap<>();
        for (Run run : comparison.runs()) {
            byCircuit
                    .computeIfAbsent(run.base(), b -> new LinkedHashMap<>())
                    .merge(
                            run.circuit(),
                            new Variant(run.circuit(), run.variant(), run.date()),
                            (a, b) -> b.date().isEmpty() || a.date().compareTo(b.date()) <= 0 ? a : b);
        }
        Map<String, List<Variant>> ordered = new LinkedHashMap<>();
        byCircuit.forEach((base, variants) -> ordered.put(
                base,
                variants.values().stream()
                        .sorted(Comparator.comparing(Variant::date))
                        .toList()));
        return ordered;
    }

    private static Step step(Comparison comparison, Variant before, Variant after) {
        List<Row> rows = new ArrayList<>();
        List<String> better = new ArrayList<>();
        List<String> worse = new ArrayList<>();
        int others = 0;
        for (Difference d : comparison.differences()) {
            Optional<Difference.Side> a = side(d, before.circuit());
            Optional<Difference.Side> b = side(d, after.circuit());
            if (a.isEmpty() || b.isEmpty()) {
                continue;
            }
            String what =
                    d.measure().title() + " at " + CheckWords.where(b.get().meanRpm(), d.load());
            if (d.better().equals(b)) {
                better.add(what);
                rows.add(row(d, a.get(), b.get(), "better", "pass"));
            } else if (d.better().equals(a)) {
                worse.add(what);
                rows.add(row(d, a.get(), b.get(), "worse", "fail"));
            } else {
                others++;
            }
        }
        return new Step(before.words(), after.words(), verdict(rows.size() + others, better, worse), rows, others);
    }

    private static Row row(Difference d, Difference.Side a, Difference.Side b, String meaning, String status) {
        double before = Math.max(0, a.value().orElse(0.0));
        double after = Math.max(0, b.value().orElse(0.0));
        double larger = Math.max(before, after);
        Optional<Double> limit = d.limit().filter(l -> l <= Strips.FARTHEST_LIMIT * larger);
        double full = ROOM * Math.max(1e-9, Math.max(larger, limit.orElse(0.0)));
        return new Row(
                d.measure().title()
                        + (d.fromPercent() > 0 ? " from " + Numbers.significant(d.fromPercent(), 2) + " % on" : ""),
                CheckWords.where(b.meanRpm(), d.load()),
                value(d, a),
                value(d, b),
                meaning,
                status,
                Numbers.fixed(100 * before / full, 1),
                Numbers.fixed(100 * after / full, 1),
                limit.map(l -> Numbers.fixed(100 * l / full, 1)).orElse(""));
    }

    private static String verdict(int compared, List<String> better, List<String> worse) {
        if (compared == 0) {
            return "The two were not recorded at like speeds and loads; record both at the same settings.";
        }
        String gained = better.isEmpty() ? "" : "Proven better: " + CheckWords.list(better) + ". ";
        String lost = worse.isEmpty() ? "" : "Proven worse: " + CheckWords.list(worse) + ".";
        return better.isEmpty() && worse.isEmpty() ? "No change is proven that would matter." : (gained + lost).strip();
    }

    private static Optional<Difference.Side> side(Difference d, String circuit) {
        return d.first().circuit().equals(circuit)
                ? Optional.of(d.first())
                : d.second().circuit().equals(circuit) ? Optional.of(d.second()) : Optional.empty();
    }

    private static String value(Difference d, Difference.Side side) {
        return side.value()
                .map(v -> ComparisonTables.beside(d, v) + " " + d.measure().unit())
                .orElse("cannot be told");
    }
}
