package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.TwoMeans;
import org.steadyshaft.response.Regulation;

/** Finds, for each circuit and setting with light and loaded runs, how much the load slows it. */
final class SagMeter {
    /** Light runs of one setting lie within this factor, and so do loaded ones: where the sheet has no settings, different ones would be mixed. */
    private static final double ONE_SETTING = 1.15;

    /** How well a speed comes back at one setting without a loop, standard deviation in %: warmth, brushes and mains change (our own figure). */
    static final double REPEATS_PERCENT = 1;

    /** The same with a loop on the tacho. */
    static final double LOOP_REPEATS_PERCENT = 0.1;

    private SagMeter() {}

    /** @param runs with one spelling for what the user means to be one */
    static List<Sag> sags(List<Run> runs) {
        Map<List<String>, List<Run>> bySetting = new LinkedHashMap<>();
        for (Run run : runs) {
            bySetting
                    .computeIfAbsent(List.of(run.circuit(), run.label().setting()), k -> new ArrayList<>())
                    .add(run);
        }
        List<Sag> sags = new ArrayList<>();
        bySetting.forEach((key, together) -> {
            List<Run> light = trusted(together.stream()
                    .filter(r -> LoadWords.isLight(r.label().load()))
                    .toList());
            Map<String, List<Run>> loaded = new LinkedHashMap<>();
            together.stream()
                    .filter(r -> !LoadWords.isLight(r.label().load()))
                    .forEach(r -> loaded.computeIfAbsent(r.label().load(), l -> new ArrayList<>())
                            .add(r));
            loaded.forEach((load, of) -> {
                if (!light.isEmpty() && areOneSetting(light) && areOneSetting(trusted(of))) {
                    sags.add(sag(key.get(0), key.get(1), load, light, trusted(of)));
                }
            });
        });
        sags.sort(Comparator.comparing(Sag::loadedRpm));
        return sags;
    }

    /** Runs whose recordings are good, if there are any; else all. */
    static List<Run> trusted(List<Run> runs) {
        List<Run> good = runs.stream().filter(r -> !r.trust().isDoubtful()).toList();
        return good.isEmpty() ? runs : good;
    }

    private static boolean areOneSetting(List<Run> runs) {
        SpeedLevel speeds = SpeedLevel.of(runs, Run::meanRpm);
        return speeds.toRpm() <= ONE_SETTING * speeds.fromRpm();
    }

    private static Sag sag(String circuit, String setting, String load, List<Run> light, List<Run> loaded) {
        MeanEstimate left = speed(light);
        MeanEstimate right = speed(loaded);
        Regulation regulation = Regulation.of(
                left.mean(), left.standardError(), right.mean(), right.standardError(), Regulation.Reference.LOADED);
        // both speeds act on their ratio by what share of themselves they are uncertain by
        double degrees = TwoMeans.of(relative(left), relative(right)).degrees();
        List<Run> both = new ArrayList<>(light);
        both.addAll(loaded);
        return new Sag(circuit, setting, load, left.mean(), right.mean(), regulation, degrees, both);
    }

    private static MeanEstimate relative(MeanEstimate speed) {
        return new MeanEstimate(1, speed.standardError() / speed.mean(), speed.degrees());
    }

    /**
     * Mean speed of some runs. Its error holds how they differ, which so few tell roughly: the degrees of freedom are those of that part. One
     * run alone does not tell how well it repeats: then it is taken to repeat as such drives usually do.
     */
    private static MeanEstimate speed(List<Run> runs) {
        Moments speeds = new Moments();
        double own = 0;
        for (Run run : runs) {
            speeds.add(run.meanRpm());
            own = Math.max(own, run.dataRpm());
        }
        if (runs.size() == 1) {
            boolean loop = runs.get(0).loop().orElse(false);
            double spread = 0.01 * (loop ? LOOP_REPEATS_PERCENT : REPEATS_PERCENT) * speeds.mean();
            return new MeanEstimate(speeds.mean(), Math.hypot(own, spread), Double.POSITIVE_INFINITY);
        }
        double between = speeds.deviation() / Math.sqrt(runs.size());
        double error = Math.hypot(own, between);
        double degrees = between > 0 ? Math.pow(error / between, 4) * (runs.size() - 1) : Double.POSITIVE_INFINITY;
        return new MeanEstimate(speeds.mean(), error, degrees);
    }
}
