package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.TwoMeans;
import org.steadyshaft.response.Regulation;

/**
 * Compares the circuits of a batch: runs are matched by measured speed in bands and by load, never by the knob; light and loaded
 * runs of one setting give the sag; every pair of circuits in a band is tested in every measure, and Holm's correction is made
 * for all tests together.
 */
public final class Comparer {
    /** Words for "no load" in a run sheet, in lower case. */
    private static final Set<String> LIGHT = Set.of("", "none", "light", "no load", "no", "0", "off", "idle", "empty");

    /** Light runs of one setting lie within this factor. */
    private static final double ONE_SETTING = 1.15;

    private final List<Work> works;
    private final boolean own;

    /**
     * @param works what kinds of work need
     * @param own whether the user said so
     */
    public Comparer(List<Work> works, boolean own) {
        this.works = List.copyOf(works);
        this.own = own;
    }

    /** @param runs runs of named circuits, in the order of the batch */
    public Comparison compare(List<Run> runs) {
        List<String> circuits = runs.stream().map(Run::circuit).distinct().toList();
        List<Group> groups = groups(runs);
        List<Sag> sags = sags(runs);
        List<Difference> differences = new PairTests(groups, sags, works).differences();
        List<WorkCheck> checks = new WorkChecker(works).check(groups, sags);
        return new Comparison(circuits, runs, groups, sags, differences, works, own, checks);
    }

    private static List<Group> groups(List<Run> runs) {
        Map<SpeedBand, Map<String, Map<String, List<Run>>>> sorted = new TreeMap<>();
        for (Run run : runs) {
            sorted.computeIfAbsent(SpeedBand.of(run.meanRpm()), b -> new TreeMap<>())
                    .computeIfAbsent(run.label().load(), l -> new LinkedHashMap<>())
                    .computeIfAbsent(run.circuit(), c -> new ArrayList<>())
                    .add(run);
        }
        List<Group> groups = new ArrayList<>();
        sorted.forEach((band, loads) -> loads.forEach((load, circuits) -> circuits.forEach((circuit, together) ->
                groups.add(new Group(circuit, band, load, together, new GroupMeter().measure(together))))));
        return groups;
    }

    /** Whether a run sheet's word for the load means none. */
    public static boolean isLight(String load) {
        return LIGHT.contains(load.strip().toLowerCase(Locale.ROOT));
    }

    /** For each circuit and setting with light and loaded runs. */
    private static List<Sag> sags(List<Run> runs) {
        Map<List<String>, List<Run>> bySetting = new LinkedHashMap<>();
        for (Run run : runs) {
            bySetting
                    .computeIfAbsent(List.of(run.circuit(), run.label().setting()), k -> new ArrayList<>())
                    .add(run);
        }
        List<Sag> sags = new ArrayList<>();
        bySetting.forEach((key, together) -> {
            List<Run> light =
                    together.stream().filter(r -> isLight(r.label().load())).toList();
            Map<String, List<Run>> loaded = new LinkedHashMap<>();
            together.stream()
                    .filter(r -> !isLight(r.label().load()))
                    .forEach(r -> loaded.computeIfAbsent(r.label().load(), l -> new ArrayList<>())
                            .add(r));
            if (!light.isEmpty() && areOneSetting(light)) {
                loaded.forEach((load, of) -> sags.add(sag(key.get(0), key.get(1), load, light, of)));
            }
        });
        sags.sort(Comparator.comparing(Sag::band));
        return sags;
    }

    /** Whether light runs of one setting ran at about one speed: where the sheet has no settings, different ones would be mixed. */
    private static boolean areOneSetting(List<Run> light) {
        double slowest = light.stream().mapToDouble(Run::meanRpm).min().orElse(0);
        double fastest = light.stream().mapToDouble(Run::meanRpm).max().orElse(0);
        return fastest <= ONE_SETTING * slowest;
    }

    private static Sag sag(String circuit, String setting, String load, List<Run> light, List<Run> loaded) {
        MeanEstimate left = speed(light);
        MeanEstimate right = speed(loaded);
        Regulation regulation = Regulation.of(
                left.mean(), left.standardError(), right.mean(), right.standardError(), Regulation.Reference.LOADED);
        // both speeds act on their ratio by what share of themselves they are uncertain by
        double degrees = TwoMeans.of(relative(left), relative(right)).degrees();
        return new Sag(
                circuit, setting, load, SpeedBand.of(right.mean()), left.mean(), right.mean(), regulation, degrees);
    }

    private static MeanEstimate relative(MeanEstimate speed) {
        return new MeanEstimate(1, speed.standardError() / speed.mean(), speed.degrees());
    }

    /**
     * Mean speed of some runs. Its error is of one run its own, of several also how they differ, which so few tell roughly: the degrees of
     * freedom are those of that part.
     */
    private static MeanEstimate speed(List<Run> runs) {
        Moments speeds = new Moments();
        double own = 0;
        for (Run run : runs) {
            speeds.add(run.meanRpm());
            own = Math.max(own, 0.5 * run.expandedRpm());
        }
        double between = runs.size() > 1 ? speeds.deviation() / Math.sqrt(runs.size()) : 0;
        double error = Math.hypot(own, between);
        double degrees = between > 0 ? Math.pow(error / between, 4) * (runs.size() - 1) : Double.POSITIVE_INFINITY;
        return new MeanEstimate(speeds.mean(), error, degrees);
    }

    /** The sag of a group's circuit in its band with its load, if it was measured: the largest of its settings. */
    static Optional<Sag> sagOf(List<Sag> sags, String circuit, SpeedBand band, String load) {
        return sags.stream()
                .filter(s -> s.circuit().equals(circuit)
                        && s.band().equals(band)
                        && s.load().equals(load))
                .max(Comparator.comparingDouble(s -> s.regulation().percent()));
    }
}
