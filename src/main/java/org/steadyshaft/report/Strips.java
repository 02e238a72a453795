package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.LoadWords;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.WorkCheck;

/** Makes the pictures of values and limits: speeds by setting, blips, and the swings at the mains and at twice the mains. */
final class Strips {
    private static final String[] SIGNS = {"\u25cf", "\u25a0", "\u25b2", "\u25c6", "\u25bc"};

    /** The scale reaches so far beyond the largest value: an upper limit further away is cut there. */
    private static final double ROOM = 1.4;

    /** A limit beyond so many times the largest value is left out of a picture: all would lie at its left edge. */
    static final double FARTHEST_LIMIT = 4;

    private final Comparison comparison;

    Strips(Comparison comparison) {
        this.comparison = comparison;
    }

    /**
     * A row before its scale is known.
     *
     * @param circuit whose mark and colour it has
     * @param name its words
     * @param values where marks stand; none where there is no value
     * @param signs a sign for each; the circuit's own where there are fewer
     * @param low where the bar begins
     * @param high where it ends
     */
    private record Bar(
            String circuit,
            String name,
            List<Double> values,
            List<String> signs,
            double low,
            double high,
            String text) {
        static Bar of(String circuit, double value, double low, double high, String text) {
            return new Bar(circuit, circuit, List.of(value), List.of(), low, high, text);
        }

        static Bar untold(String circuit, String text) {
            return new Bar(circuit, circuit, List.of(), List.of(), 0, 0, text);
        }

        double largest() {
            return values.stream().mapToDouble(v -> v).max().orElse(0);
        }
    }

    List<Strip> all() {
        List<Strip> strips = new ArrayList<>();
        settings().ifPresent(strips::add);
        of(
                        "Blips a minute",
                        "Mark: what was counted. Bar: 95 % limits of the rate. Dashed: what the work allows. Recorder faults are not counted."
                                + seenFrom(),
                        Measure.BLIPS,
                        this::blips)
                .ifPresent(strips::add);
        of(
                        "Swing at twice the mains",
                        "Amplitude, 0 to peak, in % of the mean speed, with its 95 % limits: the torque pulses of phase control.",
                        Measure.TWICE_MAINS,
                        g -> line(
                                g,
                                g.estimate(Measure.TWICE_MAINS)
                                        .map(e -> new WorkCheck.Figure(e.value(), e.low95(), e.high95()))))
                .ifPresent(strips::add);
        of(
                        "Swing at the mains",
                        "Amplitude, 0 to peak, in % of the mean speed, with its 95 % limits: half-cycles that fire unequally.",
                        null,
                        g -> line(g, g.atMains()))
                .ifPresent(strips::add);
        return strips;
    }

    private Optional<Strip> of(String heading, String caption, Measure limited, Function<Group, Optional<Bar>> bar) {
        Map<String, List<Bar>> bars = new LinkedHashMap<>();
        Map<String, Optional<Double>> limits = new LinkedHashMap<>();
        for (Group group : comparison.groups()) {
            String title = CheckWords.level(group);
            bar.apply(group).ifPresent(b -> {
                bars.computeIfAbsent(title, t -> new ArrayList<>()).add(b);
                limits.putIfAbsent(title, limit(limited, group));
            });
        }
        return drawn(heading, caption, "0", bars, limits, ROOM);
    }

    private Optional<Double> limit(Measure measure, Group group) {
        return comparison
                .workOf(group)
                .flatMap(w -> Optional.ofNullable(w.most().get(measure)));
    }

    private Optional<Bar> blips(Group group) {
        return group.estimate(Measure.BLIPS)
                .map(e -> Bar.of(group.circuit(), e.value(), e.low95(), e.high95(), words(group, e)));
    }

    private static String words(Group group, Estimate e) {
        return e.count().orElse(0) + " in " + Numbers.significant(e.minutes(), 2) + " min ("
                + Numbers.within(e.low95(), e.low95(), e.high95()) + " to "
                + Numbers.within(e.high95(), e.low95(), e.high95()) + ")" + doubt(group);
    }

    /** From which size on blips show in all recordings. */
    private String seenFrom() {
        double smallest = comparison.groups().stream()
                .flatMap(g -> g.runs().stream())
                .mapToDouble(r -> r.jumps().smallestPercent())
                .max()
                .orElse(0);
        return " Blips from " + Numbers.significant(smallest, 1)
                + " % of the speed on show in all of these recordings.";
    }

    private static String doubt(Group group) {
        return group.doubtful().isEmpty() ? "" : " (doubtful recording)";
    }

    /** A line of the mains, where there is any ripple to speak of. */
    private static Optional<Bar> line(Group group, Optional<WorkCheck.Figure> figure) {
        if (figure.isEmpty()) {
            boolean any = group.runs().stream().anyMatch(r -> r.ripple().isPresent());
            return any ? Optional.of(Bar.untold(group.circuit(), "cannot be told")) : Optional.empty();
        }
        WorkCheck.Figure f = figure.get();
        return Optional.of(Bar.of(
                group.circuit(),
                f.value(),
                f.low95(),
                f.high95(),
                CheckWords.withLimits(Measure.TWICE_MAINS, f.value(), f.low95(), f.high95()) + doubt(group)));
    }

    /** Light and loaded speeds of every circuit by its settings: the bar between both is the sag. */
    private Optional<Strip> settings() {
        Map<String, List<Bar>> bars = new LinkedHashMap<>();
        for (String circuit : comparison.circuits()) {
            List<String> settings = comparison.runs().stream()
                    .filter(r -> r.circuit().equals(circuit))
                    .map(r -> r.label().setting())
                    .filter(s -> !s.isEmpty())
                    .distinct()
                    .sorted(Comparator.comparingDouble(
                            s -> ComparisonCharts.number(s).orElse(Double.POSITIVE_INFINITY)))
                    .toList();
            settings.forEach(setting ->
                    bars.computeIfAbsent(circuit, c -> new ArrayList<>()).add(setting(circuit, setting)));
        }
        return drawn(
                "Speed against setting, light and loaded",
                "Hollow: the speed without load at that setting; filled: under load. The longer the bar between both, the more the load slows"
                        + " the motor; the percentage is the sag, in % of the loaded speed.",
                "0 rpm",
                bars,
                Map.of(),
                Double.POSITIVE_INFINITY);
    }

    private Bar setting(String circuit, String setting) {
        List<Double> values = new ArrayList<>();
        List<String> signs = new ArrayList<>();
        List<String> words = new ArrayList<>();
        Map<String, List<Run>> byLoad = new LinkedHashMap<>();
        comparison.runs().stream()
                .filter(r -> r.circuit().equals(circuit) && r.label().setting().equals(setting))
                .forEach(r -> byLoad.computeIfAbsent(r.label().load(), l -> new ArrayList<>())
                        .add(r));
        byLoad.forEach((load, runs) -> {
            double rpm = runs.stream().mapToDouble(Run::meanRpm).average().orElse(0);
            values.add(rpm);
            signs.add(LoadWords.isLight(load) ? "\u25cb" : "\u25cf");
            words.add(Numbers.fixed(rpm, 0) + " " + (LoadWords.isLight(load) ? "light" : "with " + load));
        });
        comparison.sags().stream()
                .filter(s -> s.circuit().equals(circuit) && s.setting().equals(setting))
                .forEach(s ->
                        words.add("sag " + Numbers.within(s.regulation().percent(), s.low95(), s.high95()) + " %"));
        double low = values.stream().mapToDouble(v -> v).min().orElse(0);
        double high = values.stream().mapToDouble(v -> v).max().orElse(0);
        return new Bar(circuit, setting, values, signs, low, high, String.join(", ", words));
    }

    private Optional<Strip> drawn(
            String heading,
            String caption,
            String zero,
            Map<String, List<Bar>> bars,
            Map<String, Optional<Double>> limits,
            double room) {
        double largest = bars.values().stream()
                .flatMap(List::stream)
                .mapToDouble(bar -> Double.isFinite(bar.high())
                        ? Math.min(bar.high(), room * Math.max(bar.largest(), 1e-3))
                        : bar.largest())
                .max()
                .orElse(0);
        if (!(largest > 0) && bars.isEmpty()) {
            return Optional.empty();
        }
        double limit = limits.values().stream()
                .flatMap(Optional::stream)
                .filter(l -> l <= FARTHEST_LIMIT * largest)
                .mapToDouble(l -> l)
                .max()
                .orElse(0);
        double full = 1.05 * Math.max(1e-6, Math.max(largest, limit));
        List<Strip.Group> groups = new ArrayList<>();
        bars.forEach((title, rows) -> groups.add(new Strip.Group(
                title,
                limits.getOrDefault(title, Optional.empty())
                        .filter(l -> l <= full)
                        .map(l -> place(l, full))
                        .orElse(""),
                rows.stream().map(b -> row(b, full)).toList())));
        double step = step(full);
        List<Strip.Tick> ticks = new ArrayList<>();
        for (int i = 0; i * step <= full; i++) {
            ticks.add(new Strip.Tick(place(i * step, full), i == 0 ? zero : Numbers.significant(i * step, 3)));
        }
        return Optional.of(new Strip(heading, caption, ticks, groups));
    }

    /** 1, 2 or 5 times a power of ten, so that three to five lie below the end. */
    private static double step(double full) {
        double tens = Math.pow(10, Math.floor(Math.log10(full / 3)));
        double times = full / 3 / tens;
        return tens * (times >= 5 ? 5 : times >= 2 ? 2 : 1);
    }

    private Strip.Row row(Bar bar, double full) {
        int style = Math.max(0, comparison.circuits().indexOf(bar.circuit())) % SIGNS.length;
        List<Strip.Mark> marks = new ArrayList<>();
        for (int i = 0; i < bar.values().size(); i++) {
            String sign = i < bar.signs().size() ? bar.signs().get(i) : SIGNS[style];
            marks.add(new Strip.Mark(place(bar.values().get(i), full), sign));
        }
        return new Strip.Row(bar.name(), style, marks, place(bar.low(), full), place(bar.high(), full), bar.text());
    }

    private static String place(double value, double full) {
        return Numbers.fixed(100 * Math.max(0, Math.min(1, value / full)), 2);
    }
}
