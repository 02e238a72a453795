package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.numeric.ConfidenceInterval;
import org.steadyshaft.numeric.PoissonLimits;

/** Holds circuits against what kinds of work need. A limit holds when the upper 95 % limit of the measure lies below it. */
final class WorkChecker {
    private static final double CONFIDENCE = 0.95;
    private static final double MOST_MINUTES = 600;

    private final List<Work> works;

    WorkChecker(List<Work> works) {
        this.works = works;
    }

    List<WorkCheck> check(List<Group> groups, List<Sag> sags) {
        List<WorkCheck> checks = new ArrayList<>();
        for (Work work : works) {
            for (Group group : groups) {
                if (work.applies(group.meanRpm(), group.load())) {
                    check(work, group, sags, checks);
                }
            }
        }
        return checks;
    }

    private static void check(Work work, Group group, List<Sag> sags, List<WorkCheck> checks) {
        for (Map.Entry<Measure, Double> limit : work.most().entrySet()) {
            Measure measure = limit.getKey();
            double most = limit.getValue();
            if (measure == Measure.SAG) {
                Comparer.sagOf(sags, group.circuit(), group.band(), group.load())
                        .ifPresent(sag -> checks.add(sag(work, group, sag, most)));
                continue;
            }
            Optional<Estimate> estimate = group.estimate(measure);
            if (estimate.isPresent()) {
                Estimate e = estimate.get();
                WorkCheck.Status status = status(e.low95(), e.high95(), most);
                boolean part = measure == Measure.RIPPLE || measure == Measure.SWING;
                if (part && status == WorkCheck.Status.PASS && group.untold().isPresent()) {
                    // what could not be told is not in the value
                    status = WorkCheck.Status.NOT_PROVEN;
                }
                checks.add(new WorkCheck(
                        work,
                        group.circuit(),
                        group.band(),
                        group.load(),
                        measure,
                        e.value(),
                        e.low95(),
                        e.high95(),
                        most,
                        status,
                        status == WorkCheck.Status.NOT_PROVEN ? moreMinutes(e, most) : Optional.empty()));
            }
        }
    }

    private static WorkCheck sag(Work work, Group group, Sag sag, double most) {
        double value = sag.regulation().percent();
        ConfidenceInterval limits = sag.estimate().interval(CONFIDENCE);
        return new WorkCheck(
                work,
                group.circuit(),
                group.band(),
                group.load(),
                Measure.SAG,
                value,
                limits.low(),
                limits.high(),
                most,
                status(limits.low(), limits.high(), most),
                Optional.empty());
    }

    private static WorkCheck.Status status(double low, double high, double most) {
        return high <= most ? WorkCheck.Status.PASS : low > most ? WorkCheck.Status.FAIL : WorkCheck.Status.NOT_PROVEN;
    }

    /** For blips: so many more minutes without another one. For what is measured by the second: until the interval has shrunk. */
    private static Optional<Double> moreMinutes(Estimate estimate, double most) {
        double minutes;
        if (estimate.count().isPresent()) {
            minutes = most > 0
                    ? PoissonLimits.of(estimate.count().get(), CONFIDENCE).high() / most
                    : MOST_MINUTES;
        } else {
            double room = Math.log(most / estimate.value());
            double reach = Math.log(estimate.high95() / estimate.value());
            if (!(room > 0) || !(reach > 0) || !Double.isFinite(reach)) {
                return Optional.empty();
            }
            minutes = estimate.minutes() * (reach / room) * (reach / room);
        }
        double more = minutes - estimate.minutes();
        return more > 0 && more < MOST_MINUTES ? Optional.of(more) : Optional.empty();
    }
}
