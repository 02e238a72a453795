package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Compares the circuits of a batch. Runs are matched by measured speed and by load, never by the knob: runs of one circuit at about one
 * speed with one load are a group, and every group is tested against the nearest of every other circuit. Light and loaded runs of one
 * setting give the sag.
 */
public final class Comparer {
    /** Runs of one circuit and load within this factor are one group. */
    private static final double ONE_GROUP = 1.1;

    /** Groups of all circuits within this factor stand in one column of a table; what is compared is matched more closely. */
    private static final double ONE_LEVEL = 1.25;

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

    /** @param given runs of named circuits, in the order of the batch */
    public Comparison compare(List<Run> given) {
        List<Run> runs = new Spellings().unified(given);
        List<String> circuits = runs.stream().map(Run::circuit).distinct().toList();
        List<Group> groups = groups(runs);
        List<Sag> sags = SagMeter.sags(runs);
        PairTests tests = new PairTests(circuits, groups, sags, works);
        List<WorkCheck> checks = new WorkChecker(works, circuits).check(groups, sags);
        return new Comparison(circuits, runs, groups, sags, tests.differences(), tests.unmatched(), works, own, checks);
    }

    /** By level, load and circuit; light ones first. */
    private static List<Group> groups(List<Run> runs) {
        Map<List<String>, List<Run>> sorted = new LinkedHashMap<>();
        for (Run run : runs) {
            sorted.computeIfAbsent(List.of(run.circuit(), run.label().load()), k -> new ArrayList<>())
                    .add(run);
        }
        List<List<Run>> together = new ArrayList<>();
        sorted.values().forEach(of -> together.addAll(SpeedLevel.split(of, Run::meanRpm, ONE_GROUP)));
        Map<SpeedLevel, List<Group>> byLevel = new TreeMap<>();
        for (List<List<Run>> level : SpeedLevel.split(together, Group::meanRpm, ONE_LEVEL)) {
            SpeedLevel speeds = SpeedLevel.of(level, Group::meanRpm);
            byLevel.put(speeds, level.stream().map(of -> group(of, speeds)).toList());
        }
        List<String> circuits = runs.stream().map(Run::circuit).distinct().toList();
        List<Group> groups = new ArrayList<>();
        byLevel.values()
                .forEach(level -> level.stream()
                        .sorted(Comparator.comparing((Group g) -> !LoadWords.isLight(g.load()))
                                .thenComparing(Group::load)
                                .thenComparing(g -> circuits.indexOf(g.circuit()))
                                .thenComparing(Group::meanRpm))
                        .forEach(groups::add));
        return groups;
    }

    /** The measures come from the runs whose recordings are good, if there are any. */
    private static Group group(List<Run> all, SpeedLevel level) {
        List<Run> runs = SagMeter.trusted(all);
        List<Run> leftOut = all.stream().filter(r -> !runs.contains(r)).toList();
        GroupMeter meter = new GroupMeter(runs).measure();
        Run first = all.get(0);
        return new Group(
                first.circuit(), level, first.label().load(), runs, leftOut, meter.estimates(), meter.untold());
    }
}
