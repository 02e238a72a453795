package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Standing;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.stability.Alarm;

/** The one or two changes with the largest effect on what fails, by the cause that was found. */
final class ChangeNext {
    private static final int MOST_POINTS = 2;

    private final Advice advice = Advice.usual();
    private final List<Standing> hopeful;
    private final List<Standing> standings;

    /**
     * @param hopeful a circuit that is worth a change before all others; none where one may be kept as it is
     * @param standings all circuits
     */
    ChangeNext(List<Standing> hopeful, List<Standing> standings) {
        this.hopeful = hopeful;
        this.standings = standings;
    }

    /** Something that lies beyond its limit. */
    private record Wish(Standing standing, WorkCheck check) {}

    /** What ran too fast comes first, whether a limit is missed or not: nothing else of it matters before. */
    List<DecisionWords.Point> points() {
        Map<Advice.Rule, String> told = new LinkedHashMap<>();
        standings.forEach(s -> tooFast(s)
                .flatMap(code -> advice.rule("alarm", code.name()))
                .ifPresent(rule -> told.putIfAbsent(rule, s.circuit() + ", as it ran too fast")));
        wishes().forEach(w -> rule(w.standing(), w.check())
                .ifPresent(rule -> told.putIfAbsent(
                        rule,
                        w.standing().circuit() + ", for its "
                                + w.check().measure().title())));
        List<DecisionWords.Point> points = new ArrayList<>();
        boolean mains = false;
        for (Map.Entry<Advice.Rule, String> entry : told.entrySet()) {
            if (points.size() < MOST_POINTS) {
                Advice.Rule rule = entry.getKey();
                mains |= rule.mains();
                points.add(new DecisionWords.Point(entry.getValue(), rule.causes() + " " + rule.next()));
            }
        }
        if (mains) {
            points.add(DecisionWords.Point.of(advice.caution()));
        }
        return points;
    }

    /** What lies beyond its limit, proven before not proven, the furthest first; all of the hopeful circuit before the others'. */
    private List<Wish> wishes() {
        List<Wish> wishes = new ArrayList<>();
        standings.stream()
                .filter(s -> tooFast(s).isEmpty())
                .forEach(s -> s.checks().stream()
                        .filter(c -> c.status() == WorkCheck.Status.FAIL || c.shareOfLimit() > 1)
                        .forEach(c -> wishes.add(new Wish(s, c))));
        wishes.sort(Comparator.comparing((Wish w) -> !hopeful.contains(w.standing()))
                .thenComparing(w -> w.check().status() != WorkCheck.Status.FAIL)
                .thenComparingDouble(w -> -w.check().shareOfLimit()));
        return wishes;
    }

    private Optional<Advice.Rule> rule(Standing standing, WorkCheck check) {
        List<Run> runs = check.group().map(Group::runs).orElse(List.of());
        return switch (check.measure()) {
            case BLIPS -> commonest(runs).flatMap(cause -> advice.rule("blip", cause.name()));
            case RIPPLE, SWING -> largest(runs).flatMap(cause -> advice.rule("ripple", cause.name()));
            case TWICE_MAINS -> advice.rule("ripple", RippleCause.TWICE_MAINS.name());
            case WANDER -> advice.rule("other", "DRIFT");
            case SAG -> advice.rule("compare", isLoop(standing) ? "SAG_OF_A_LOOP" : "SAG");
            case SETTLING -> advice.rule("other", "OVERSHOOT");
            case HUNTING ->
                runs.stream()
                        .flatMap(r -> r.hunting().stream())
                        .findFirst()
                        .flatMap(h -> advice.rule("hunting", h.trend().name()));
        };
    }

    /** The gravest alarm of a circuit's runs that says that the motor ran too fast. */
    private static Optional<Alarm.Code> tooFast(Standing standing) {
        return standing.groups().stream()
                .flatMap(g -> g.alarms().stream())
                .filter(Alarm.Code::isTooFast)
                .max(Comparator.naturalOrder());
    }

    private static boolean isLoop(Standing standing) {
        return standing.groups().stream()
                .flatMap(g -> g.runs().stream())
                .anyMatch(r -> r.loop().orElse(false));
    }

    private static Optional<BlipCause> commonest(List<Run> runs) {
        Map<BlipCause, Integer> counts = new EnumMap<>(BlipCause.class);
        runs.forEach(r -> r.jumps().events().forEach(e -> counts.merge(e.cause(), 1, Integer::sum)));
        return counts.entrySet().stream().max(Map.Entry.comparingByValue()).map(Map.Entry::getKey);
    }

    /** Cause of the largest regular swing; a swing of hunting has an advice of its own kind. */
    private static Optional<RippleCause> largest(List<Run> runs) {
        return runs.stream()
                .flatMap(r -> r.lines().stream())
                .max(Comparator.comparingDouble(Run.Line::amplitudePercent))
                .map(Run.Line::cause);
    }
}
