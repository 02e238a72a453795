package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steadyshaft.numeric.PoissonLimits;

/**
 * Holds circuits against what kinds of work need. A limit holds when the upper 95 % limit of the measure lies below it. What was never
 * recorded, or does not show in the recordings, is told as such: it is no pass.
 */
final class WorkChecker {
    private static final double CONFIDENCE = 0.95;
    private static final double MOST_MINUTES = 600;

    /** What needs recordings of its own, once for a circuit and not at every speed. */
    private static final Set<Measure> OF_A_CIRCUIT = Set.of(Measure.SAG, Measure.SETTLING);

    private final List<Work> works;
    private final List<String> circuits;
    private final List<WorkCheck> checks = new ArrayList<>();

    WorkChecker(List<Work> works, List<String> circuits) {
        this.works = works;
        this.circuits = circuits;
    }

    List<WorkCheck> check(List<Group> groups, List<Sag> sags) {
        for (Work work : works) {
            for (String circuit : circuits) {
                List<Group> of = groups.stream()
                        .filter(g -> g.circuit().equals(circuit) && work.applies(g))
                        .toList();
                List<Sag> own =
                        sags.stream().filter(s -> s.circuit().equals(circuit)).toList();
                if (!of.isEmpty()) {
                    check(work, circuit, of, own);
                }
            }
        }
        return checks;
    }

    private void check(Work work, String circuit, List<Group> groups, List<Sag> sags) {
        for (Map.Entry<Measure, Double> limit : work.most().entrySet()) {
            Measure measure = limit.getKey();
            int before = checks.size();
            if (measure == Measure.SAG) {
                sags(work, groups, sags, limit.getValue());
            } else {
                groups.forEach(group -> check(work, group, measure, limit.getValue()));
            }
            if (checks.size() == before && OF_A_CIRCUIT.contains(measure)) {
                checks.add(untold(
                        work,
                        circuit,
                        Optional.empty(),
                        measure,
                        limit.getValue(),
                        WorkCheck.Status.NOT_RECORDED,
                        measure == Measure.SAG
                                ? "no setting was recorded light and loaded"
                                : "no step of the set-point was recorded"));
            }
        }
    }

    private void check(Work work, Group group, Measure measure, double most) {
        Optional<Estimate> estimate = measure == Measure.BLIPS
                ? GroupMeter.blips(group.runs(), work.blipPercent().orElse(0))
                : group.estimate(measure);
        if (estimate.isPresent()) {
            checks.add(judged(work, group, estimate.get(), most));
        } else if (group.untold().containsKey(measure)) {
            checks.add(untold(
                    work,
                    group.circuit(),
                    Optional.of(group),
                    measure,
                    most,
                    WorkCheck.Status.CANNOT_TELL,
                    group.untold().get(measure)));
        }
    }

    private static WorkCheck judged(Work work, Group group, Estimate e, double most) {
        WorkCheck.Status status = status(e.low95(), e.high95(), most);
        String reason = hidden(work, group, e.measure());
        if (status == WorkCheck.Status.PASS && !reason.isEmpty()) {
            // what could not be told is not in the value
            status = WorkCheck.Status.NOT_PROVEN;
        }
        boolean open = status == WorkCheck.Status.NOT_PROVEN;
        return new WorkCheck(
                work,
                group.circuit(),
                Optional.of(group),
                e.measure(),
                Optional.of(new WorkCheck.Figure(e.value(), e.low95(), e.high95())),
                most,
                status,
                open && reason.isEmpty() ? moreMinutes(e, most) : Optional.empty(),
                open ? reason.isEmpty() && !e.hasInterval() ? "one step alone proves nothing" : reason : "");
    }

    /** What a group's value does not hold although it belongs to it; empty where it is whole. */
    private static String hidden(Work work, Group group, Measure measure) {
        if (measure == Measure.RIPPLE || measure == Measure.SWING) {
            return group.notWhole().orElse("");
        }
        double surely = GroupMeter.smallestBlipPercent(group.runs());
        double counts = work.blipPercent().orElse(Double.POSITIVE_INFINITY);
        return measure == Measure.BLIPS && surely > counts
                ? String.format(
                        Locale.ROOT,
                        "blips from %.2g %% on count, but only those above %.2g %% show surely in these recordings",
                        counts,
                        surely)
                : "";
    }

    /** A loaded run's sag stands at its speed; where that lies outside the work, at that of its light run. */
    private void sags(Work work, List<Group> groups, List<Sag> sags, double most) {
        for (Sag sag : sags) {
            Optional<Group> group = groups.stream()
                    .filter(g -> g.runs().stream().anyMatch(sag.runs()::contains))
                    .reduce((light, loaded) -> LoadWords.isLight(loaded.load()) ? light : loaded);
            if (group.isPresent()) {
                double value = sag.regulation().percent();
                WorkCheck.Figure figure = new WorkCheck.Figure(value, sag.low95(), sag.high95());
                checks.add(new WorkCheck(
                        work,
                        sag.circuit(),
                        group,
                        Measure.SAG,
                        Optional.of(figure),
                        most,
                        status(figure.low95(), figure.high95(), most),
                        Optional.empty(),
                        String.format(
                                Locale.ROOT,
                                "%.0f rpm light, %.0f rpm loaded%s",
                                sag.lightRpm(),
                                sag.loadedRpm(),
                                sag.setting().isEmpty() ? "" : " at " + sag.setting())));
            }
        }
    }

    private static WorkCheck untold(
            Work work,
            String circuit,
            Optional<Group> group,
            Measure measure,
            double most,
            WorkCheck.Status status,
            String reason) {
        return new WorkCheck(work, circuit, group, measure, Optional.empty(), most, status, Optional.empty(), reason);
    }

    private static WorkCheck.Status status(double low, double high, double most) {
        return high <= most ? WorkCheck.Status.PASS : low > most ? WorkCheck.Status.FAIL : WorkCheck.Status.NOT_PROVEN;
    }

    /** For blips: so many more minutes without another one. For what is measured by the second: until the interval has shrunk. */
    private static Optional<Double> moreMinutes(Estimate estimate, double most) {
        double minutes;
        if (estimate.measure() == Measure.BLIPS) {
            minutes = most > 0
                    ? PoissonLimits.of(estimate.count().orElse(0), CONFIDENCE).high() / most
                    : MOST_MINUTES;
        } else {
            double room = Math.log(most / estimate.value());
            double reach = Math.log(estimate.high95() / estimate.value());
            if (!estimate.measure().isByRatio() || !(room > 0) || !(reach > 0) || !Double.isFinite(reach)) {
                return Optional.empty();
            }
            minutes = estimate.minutes() * (reach / room) * (reach / room);
        }
        double more = minutes - estimate.minutes();
        return more > 0 && more < MOST_MINUTES ? Optional.of(more) : Optional.empty();
    }
}
