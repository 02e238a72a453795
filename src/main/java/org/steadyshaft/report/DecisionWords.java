package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Holding;
import org.steadyshaft.compare.LoadWords;
import org.steadyshaft.compare.Standing;
import org.steadyshaft.compare.Work;
import org.steadyshaft.compare.WorkCheck;

/** The decision in words for the user's first work: what to keep and why, what not, what is open, what to change and what to record. */
public final class DecisionWords {
    private static final int MOST_REASONS = 2;
    private static final int MOST_DIFFERENCES = 3;
    private static final String LIGHT_IS_WELL = "Light it misses nothing";

    private final Comparison comparison;
    private final Optional<Work> work;
    private final List<Standing> standings;
    private final List<Standing> kept;

    public DecisionWords(Comparison comparison) {
        this.comparison = comparison;
        this.work = comparison.mainWork();
        this.standings = comparison.standings().stream()
                .filter(s -> work.filter(s.work()::equals).isPresent())
                .toList();
        this.kept = standings.stream()
                .filter(s -> s.holding() == Holding.HOLDS)
                .sorted(Comparator.comparingInt((Standing s) -> s.missing().size())
                        .thenComparingLong(s -> beatenBy(s, Holding.HOLDS)))
                .toList();
    }

    /** How many proven differences go against a circuit, beside those that hold as well. */
    private long beatenBy(Standing standing, Holding holding) {
        List<String> others = standings.stream()
                .filter(s -> s.holding() == holding)
                .map(Standing::circuit)
                .toList();
        return comparison.differences().stream()
                .filter(d -> d.worse()
                        .filter(w -> w.circuit().equals(standing.circuit()))
                        .isPresent())
                .filter(d -> others.contains(d.better().orElseThrow().circuit()))
                .count();
    }

    /**
     * A paragraph of the decision.
     *
     * @param label what it is about: Keep, Do not keep, Open, ...
     * @param points one or more
     */
    record Part(String label, List<Point> points) {}

    /** A point: what it is about, a circuit mostly or nothing, and what there is to say. */
    record Point(String about, String text) {
        static Point of(String text) {
            return new Point("", text);
        }

        /** In one string. */
        String words() {
            return about.isEmpty() ? text : about + ": " + text;
        }
    }

    /** One sentence that holds if the reader reads no further. */
    public String headline() {
        if (work.isEmpty()) {
            return "No limits apply to these speeds and loads; what is proven between the circuits stands below.";
        }
        String forWork = "For " + work.get().title() + ": ";
        if (!kept.isEmpty()) {
            String others = kept.size() > 1
                    ? " ("
                            + CheckWords.list(
                                    kept.stream().skip(1).map(Standing::circuit).toList())
                            + (kept.size() > 2 ? " hold, too)" : " holds, too)")
                    : "";
            return forWork + "keep " + kept.get(0).circuit() + others + unrecorded(kept.get(0)) + ".";
        }
        Optional<Standing> open = open().stream().findFirst();
        if (open.isPresent()) {
            return forWork + "undecided. " + open.get().circuit() + " may do, but that is not proven yet.";
        }
        return forWork + "none is good enough as it stands. "
                + nearest().map(s -> s.circuit() + " comes nearest.").orElse("");
    }

    private static String unrecorded(Standing standing) {
        List<String> missing = standing.with(WorkCheck.Status.NOT_RECORDED).stream()
                .map(c -> c.measure().title())
                .distinct()
                .toList();
        return missing.isEmpty() ? "" : " - it holds all that was recorded; not recorded: " + CheckWords.list(missing);
    }

    /** Circuits that are neither proven to hold nor to fail, the most hopeful first. */
    private List<Standing> open() {
        return standings.stream()
                .filter(s -> s.holding() == Holding.MOSTLY || s.holding() == Holding.CANNOT_TELL)
                .sorted(Comparator.comparing((Standing s) -> s.holding() != Holding.MOSTLY)
                        .thenComparing(Standing::worstShare))
                .toList();
    }

    private List<Standing> failed() {
        return standings.stream().filter(s -> s.holding() == Holding.DOES_NOT).toList();
    }

    private Optional<Standing> nearest() {
        return failed().stream().min(Comparator.comparingDouble(Standing::worstShare));
    }

    List<Part> parts() {
        List<Part> parts = new ArrayList<>();
        add(parts, "Keep", keep());
        add(parts, "Undecided", open().stream().map(DecisionWords::open).toList());
        add(parts, "Do not keep as it is", failures());
        add(parts, "Better in what", differences());
        add(parts, "Change next", changes());
        add(parts, "Record next", new RecordNext(comparison, standings).points());
        add(parts, "Bear in mind", cautions());
        return parts;
    }

    private static void add(List<Part> parts, String label, List<Point> points) {
        if (!points.isEmpty()) {
            parts.add(new Part(label, points));
        }
    }

    private List<Point> keep() {
        List<Point> points = new ArrayList<>();
        for (Standing standing : kept) {
            String where = settings(standing.groups());
            String tightest = standing.with(WorkCheck.Status.PASS).stream()
                    .findFirst()
                    .map(c -> "; nearest to its limit: " + CheckWords.reason(c))
                    .orElse("");
            points.add(new Point(
                    standing.circuit(),
                    "every limit that was recorded is proven to hold (" + where + ")" + tightest + "."));
        }
        return points;
    }

    private static Point open(Standing standing) {
        List<WorkCheck> reasons = new ArrayList<>(standing.with(WorkCheck.Status.NOT_PROVEN));
        reasons.addAll(standing.with(WorkCheck.Status.CANNOT_TELL));
        String why = reasons.isEmpty() ? "its recordings are doubtful" : reasons(reasons);
        boolean within = standing.holding() == Holding.MOSTLY;
        return new Point(
                standing.circuit(),
                (within ? "all that was found lies within its limits, but not proven: " : "") + why + ".");
    }

    private List<Point> failures() {
        List<Point> points =
                new ArrayList<>(failed().stream().map(DecisionWords::failure).toList());
        if (points.stream().anyMatch(p -> p.text().contains(LIGHT_IS_WELL))) {
            points.add(Point.of(capital(work.map(Work::title).orElse("the work"))
                    + " is done under load: where light and loaded runs disagree, the loaded ones count."));
        }
        return points;
    }

    private static String capital(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    private static Point failure(Standing standing) {
        List<WorkCheck> failed = standing.with(WorkCheck.Status.FAIL);
        List<String> alarms = standing.groups().stream()
                .flatMap(g -> g.runs().stream())
                .filter(r -> r.trust().ranAway())
                .map(r -> r.name())
                .toList();
        String ranAway =
                alarms.isEmpty() ? "" : "it RAN AWAY in " + CheckWords.list(alarms) + (failed.isEmpty() ? "" : "; ");
        return new Point(standing.circuit(), ranAway + reasons(failed) + onlyWhere(standing, failed) + ".");
    }

    private static String reasons(List<WorkCheck> checks) {
        List<String> reasons = new ArrayList<>();
        List<WorkCheck> told = new ArrayList<>();
        for (WorkCheck check : checks) {
            // the worst of a measure stands for its others
            if (told.stream().noneMatch(t -> t.measure() == check.measure()) && told.size() < MOST_REASONS) {
                told.add(check);
                reasons.add(CheckWords.reason(check));
            }
        }
        int more = checks.size() - told.size();
        return String.join("; ", reasons) + (more > 0 ? "; and " + more + " more" : "");
    }

    /** "light: knob 3 and knob 4; load 2 kg clay: knob 5". */
    static String settings(List<Group> groups) {
        Map<String, List<String>> byLoad = new LinkedHashMap<>();
        for (Group group : groups) {
            List<String> of = byLoad.computeIfAbsent(CheckWords.load(group.load()), l -> new ArrayList<>());
            of.addAll(
                    group.settings().isEmpty()
                            ? List.of(Numbers.fixed(group.meanRpm(), 0) + " rpm")
                            : group.settings());
        }
        List<String> words = new ArrayList<>();
        byLoad.forEach((load, of) ->
                words.add(load + ": " + CheckWords.list(of.stream().distinct().toList())));
        return String.join("; ", words);
    }

    /** Whether a circuit fails under load only, or light only: which of both counts for a work that is done under load. */
    private static String onlyWhere(Standing standing, List<WorkCheck> failed) {
        boolean light = fails(failed, true);
        boolean loaded = fails(failed, false);
        boolean ranBoth = standing.groups().stream()
                        .map(g -> LoadWords.isLight(g.load()))
                        .distinct()
                        .count()
                > 1;
        if (!ranBoth || light == loaded) {
            return "";
        }
        return loaded ? ". " + LIGHT_IS_WELL : ". Under load it misses nothing";
    }

    private static boolean fails(List<WorkCheck> failed, boolean light) {
        return failed.stream().flatMap(c -> c.group().stream()).anyMatch(g -> LoadWords.isLight(g.load()) == light);
    }

    /** What is proven between those that may be kept and the others, the largest beside its limit of each measure. */
    private List<Point> differences() {
        List<String> candidates = kept.isEmpty()
                ? open().stream().map(Standing::circuit).toList()
                : kept.stream().map(Standing::circuit).toList();
        List<Difference> proven = comparison.differences().stream()
                .filter(d -> d.better().isPresent())
                .filter(d -> candidates.isEmpty()
                        || candidates.contains(d.first().circuit())
                        || candidates.contains(d.second().circuit()))
                .toList();
        List<Difference> told = new ArrayList<>();
        for (Difference d : proven) {
            if (told.size() < MOST_DIFFERENCES && told.stream().noneMatch(t -> t.measure() == d.measure())) {
                told.add(d);
            }
        }
        List<Point> points = new ArrayList<>();
        told.forEach(d -> points.add(sentence(d)));
        told.forEach(d -> turned(d, proven).ifPresent(points::add));
        if (proven.isEmpty() && !comparison.differences().isEmpty()) {
            points.add(Point.of("No difference between circuits is proven that would matter."));
        }
        return points;
    }

    /** Where one circuit is better light and the other under load: which of both counts. */
    private Optional<Point> turned(Difference d, List<Difference> proven) {
        return proven.stream()
                .filter(o -> o.measure() == d.measure()
                        && LoadWords.isLight(o.load()) != LoadWords.isLight(d.load())
                        && o.better()
                                .orElseThrow()
                                .circuit()
                                .equals(d.worse().orElseThrow().circuit())
                        && o.worse()
                                .orElseThrow()
                                .circuit()
                                .equals(d.better().orElseThrow().circuit()))
                .findFirst()
                .map(o -> {
                    Difference light = LoadWords.isLight(d.load()) ? d : o;
                    Difference loaded = light == d ? o : d;
                    return Point.of(String.format(
                            Locale.ROOT,
                            "In %s %s wins light and %s under load%s.",
                            d.measure().title(),
                            light.better().orElseThrow().circuit(),
                            loaded.better().orElseThrow().circuit(),
                            work.map(w -> ": " + w.title() + " is done under load, so the loaded runs count")
                                    .orElse("")));
                });
    }

    private static Point sentence(Difference d) {
        Difference.Side better = d.better().orElseThrow();
        Difference.Side worse = d.worse().orElseThrow();
        return new Point(
                better.circuit(),
                String.format(
                        Locale.ROOT,
                        "better than %s in %s (%s).",
                        worse.circuit(),
                        CheckWords.against(d),
                        CheckWords.where(better.meanRpm(), d.load())));
    }

    private List<Point> changes() {
        List<Standing> hopeful = kept.isEmpty()
                ? Stream.concat(open().stream(), nearest().stream()).limit(1).toList()
                : List.of();
        List<String> former = History.former(comparison);
        return new ChangeNext(
                        hopeful,
                        standings.stream()
                                .filter(s -> !former.contains(s.circuit()))
                                .toList())
                .points();
    }

    private List<Point> cautions() {
        List<Point> points = new ArrayList<>();
        List<String> leftOut = comparison.groups().stream()
                .flatMap(g -> g.leftOut().stream())
                .map(CheckWords::doubtful)
                .toList();
        if (!leftOut.isEmpty()) {
            points.add(Point.of("Left out, as their recordings are doubtful and better ones are there: "
                    + CheckWords.list(leftOut) + "."));
        }
        List<String> doubtful = comparison.groups().stream()
                .flatMap(g -> g.doubtful().stream())
                .map(CheckWords::doubtful)
                .toList();
        if (!doubtful.isEmpty()) {
            points.add(Point.of("Doubtful recordings that figures rest on, for want of better ones: "
                    + CheckWords.list(doubtful) + "."));
        }
        boolean several = comparison.groups().stream().anyMatch(g -> g.dates().size() > 1);
        boolean single = comparison.groups().stream().allMatch(g -> g.runs().size() == 1);
        if (!several) {
            points.add(
                    Point.of(
                            (single ? "Each setting was recorded once" : "Each setting was recorded on one day")
                                    + ": that tells how the circuits ran then, not how they run on another day. Record the ones you may keep again."));
        }
        if (!comparison.own()) {
            points.add(
                    Point.of(
                            "The limits are the program's own starting points, not a standard; write your own and give them with --limits."));
        }
        return points;
    }
}
