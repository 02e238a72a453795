package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.BlipMaker;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.blip.CleanTrack;
import org.steadyshaft.blip.GradualChanges;
import org.steadyshaft.blip.Kink;
import org.steadyshaft.blip.ShaftEvents;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.LoadEventFinder;
import org.steadyshaft.response.Step;
import org.steadyshaft.response.StepFinder;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.SteadyFinder;

/**
 * The run without its blips: the speed, where it is steady, the loads. A sudden change at the begin of a lasting one is the begin of a load
 * and no blip.
 *
 * @param shaft what happened, changes that belong to loads left out
 * @param calm the speed without blips
 */
record CalmRun(ShaftEvents shaft, Optional<Blips> blips, SpeedTrack calm, List<Stretch> steady, List<LoadEvent> loads) {
    /** A change so near to a load's begin is part of it. */
    private static final double OF_LOAD_SECONDS = 0.3;

    /** Within the rise of a step that is faster than this a kink of less than this share of it is the step's own shape (our own figures). */
    private static final double FAST_STEP_SECONDS = 1;

    private static final double OF_STEP_SHARE = 0.2;

    private static final double BESIDE_STEP_SECONDS = 0.1;

    /** Tails longer than this leave up to such a share of their jump (our own figures). */
    private static final double LONG_RETURN_SECONDS = 3;

    private static final double OF_TAIL_SHARE = 0.35;

    static CalmRun of(ShaftEvents shaft, SpeedTrack track, double mainsHz) {
        CalmRun run = besideLoads(shaft, track, mainsHz);
        List<Step> steps = run.shaft.kinks().isEmpty() ? List.of() : new StepFinder().find(run.calm, run.steady);
        List<Kink> blips = run.shaft.kinks().stream()
                .filter(k -> !GradualChanges.isOne(k))
                .filter(k -> steps.stream().noneMatch(s -> isOfStep(k, s)))
                .filter(k -> run.loads.stream().noneMatch(l -> isOfDip(k, l)))
                .toList();
        return blips.size() == run.shaft.kinks().size() ? run : once(shaft.withKinks(blips), track, mainsHz);
    }

    private static CalmRun besideLoads(ShaftEvents shaft, SpeedTrack track, double mainsHz) {
        List<Kink> kinks = GradualChanges.joined(shaft.kinks());
        CalmRun first = once(shaft.withKinks(kinks), track, mainsHz);
        List<LoadEvent> loads = new ArrayList<>(first.loads);
        List<Kink> sudden = kinks.stream().filter(k -> !GradualChanges.isOne(k)).toList();
        if (sudden.size() < kinks.size()) {
            loads.addAll(once(shaft.withKinks(sudden), track, mainsHz).loads);
        }
        List<Kink> blips = kinks.stream()
                .filter(k -> loads.stream().noneMatch(l -> isBegin(k, l)))
                .toList();
        if (blips.size() == kinks.size()) {
            return first;
        }
        CalmRun without = once(shaft.withKinks(blips), track, mainsHz);
        return loads.stream().allMatch(without::tells) ? without : first;
    }

    private boolean tells(LoadEvent load) {
        return loads.stream().anyMatch(l -> Math.abs(l.timeSeconds() - load.timeSeconds()) < OF_LOAD_SECONDS);
    }

    private static CalmRun once(ShaftEvents shaft, SpeedTrack track, double mainsHz) {
        Optional<Blips> blips = new BlipMaker(mainsHz).make(shaft, track);
        SpeedTrack calm = CleanTrack.of(track, shaft.kinks());
        List<Stretch> steady = new SteadyFinder().find(calm);
        List<Stretch> where = blips.map(Blips::events).orElse(List.of()).stream()
                .map(b -> new Stretch(b.fromSeconds(), b.toSeconds()))
                .toList();
        List<LoadEvent> loads = new LoadEventFinder()
                .find(calm, steady, where).stream()
                        .filter(l -> shaft.kinks().stream().noneMatch(k -> isOfTail(l, k)))
                        .toList();
        return new CalmRun(shaft, blips, calm, steady, loads);
    }

    /** Whether a load is what is left of the long tail of a jump, which is not quite exponential. */
    private static boolean isOfTail(LoadEvent load, Kink kink) {
        double since = load.timeSeconds() - kink.startSeconds();
        return kink.returnSeconds() > LONG_RETURN_SECONDS
                && since > -OF_LOAD_SECONDS
                && since < kink.returnSeconds()
                && Math.abs(load.dipPercent()) < OF_TAIL_SHARE * Math.abs(kink.percent());
    }

    private static boolean isBegin(Kink kink, LoadEvent load) {
        return Math.abs(kink.startSeconds() - load.timeSeconds()) < OF_LOAD_SECONDS
                && kink.percent() * load.dipPercent() < 0;
    }

    private static boolean isOfStep(Kink kink, Step step) {
        double since = kink.startSeconds() - step.timeSeconds();
        double changePercent = 100 * Math.abs(step.toRpm() / step.fromRpm() - 1);
        double rise = step.riseTimeSeconds();
        return rise < FAST_STEP_SECONDS
                && since > -BESIDE_STEP_SECONDS
                && since < step.deadTimeSeconds().orElse(0) + rise + BESIDE_STEP_SECONDS
                && Math.abs(kink.percent()) < OF_STEP_SHARE * changePercent;
    }

    /** Whether a kink is a small part of how a load begins. */
    private static boolean isOfDip(Kink kink, LoadEvent load) {
        double since = kink.startSeconds() - load.timeSeconds();
        return since > -BESIDE_STEP_SECONDS
                && since < OF_LOAD_SECONDS
                && Math.abs(kink.percent()) < OF_STEP_SHARE * Math.abs(load.dipPercent());
    }

    /** The blips' events; none where blips could not be looked for. */
    List<Blip> events() {
        return blips.map(Blips::events).orElse(List.of());
    }
}
