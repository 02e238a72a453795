package org.steadyshaft.compare;

import java.util.Comparator;
import java.util.List;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.stability.Alarm;

/** Holds single runs against the work that they were made for. */
public final class RunJudge {
    private final List<Work> works;

    /** @param works one or more, in the user's order */
    public RunJudge(List<Work> works) {
        if (works.isEmpty()) {
            throw new IllegalArgumentException("no work to judge by");
        }
        this.works = List.copyOf(works);
    }

    /**
     * Ran away: an alarm says so. Does not hold: a limit is proven missed. Cannot be told: the number of poles is doubtful, nothing was
     * steady long enough, a limited measure does not show, or the tacho's lead was open for a while. Mostly: something is not proven, or there were jumps, though not too
     * many. Holds: all else; that there was no jump in a recording too short to prove their rate takes nothing from that.
     */
    public RunJudgement judge(Run run) {
        List<Work> fitting = works.stream()
                .filter(w -> w.applies(run.meanRpm(), run.label().load()))
                .toList();
        Work work = fitting.isEmpty()
                ? works.stream()
                        .min(Comparator.comparingDouble(w -> away(w, run)))
                        .orElseThrow()
                : fitting.get(0);
        List<Run> alone = List.of(run);
        GroupMeter meter = new GroupMeter(alone).measure();
        Group group = new Group(
                run.circuit(),
                SpeedLevel.of(alone, Run::meanRpm),
                run.label().load(),
                alone,
                List.of(),
                meter.estimates(),
                meter.untold());
        List<WorkCheck> checks = new WorkChecker(List.of(reaching(work, run)), List.of(run.circuit()))
                .check(List.of(group), List.of()).stream()
                        .filter(c -> c.status() != WorkCheck.Status.NOT_RECORDED)
                        .toList();
        return new RunJudgement(held(run, checks), work, !fitting.isEmpty(), checks);
    }

    private static SpeedHeld held(Run run, List<WorkCheck> checks) {
        if (run.trust().ranAway()) {
            return SpeedHeld.RUNAWAY;
        }
        if (run.trust().faults().contains(FindingCode.POLE_COUNT) || checks.isEmpty()) {
            return SpeedHeld.CANNOT_TELL;
        }
        if (has(checks, WorkCheck.Status.FAIL)) {
            return SpeedHeld.NO;
        }
        if (has(checks, WorkCheck.Status.CANNOT_TELL) || run.trust().alarms().contains(Alarm.Code.LEAD_OPEN)) {
            return SpeedHeld.CANNOT_TELL;
        }
        boolean open = checks.stream()
                .anyMatch(c -> c.status() == WorkCheck.Status.NOT_PROVEN
                        && (c.shareOfLimit() > 0 || !c.reason().isEmpty()));
        return open ? SpeedHeld.MOSTLY : SpeedHeld.YES;
    }

    private static boolean has(List<WorkCheck> checks, WorkCheck.Status status) {
        return checks.stream().anyMatch(c -> c.status() == status);
    }

    /** How far a run's speed lies outside a work's, as a logarithm of their ratio. */
    private static double away(Work work, Run run) {
        return Math.max(0, Math.max(Math.log(work.fromRpm() / run.meanRpm()), Math.log(run.meanRpm() / work.toRpm())));
    }

    /** The work's limits at the run's own speed and load. */
    private static Work reaching(Work work, Run run) {
        return new Work(
                work.name(),
                work.title(),
                Math.min(work.fromRpm(), run.meanRpm()),
                Math.max(work.toRpm(), run.meanRpm()),
                List.of(),
                work.most(),
                work.blipPercent(),
                work.beltRatio());
    }
}
