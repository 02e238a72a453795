package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.stability.Alarm;

/** The rules of {@link Advice} that what was found in a capture calls for, each once, the most urgent first. */
public final class AdviceList {
    /** Pole patterns up to this are common (practice: 1 to 3 %) and call for nothing. */
    private static final double COMMON_PATTERN_PERCENT = 3;

    /** Smaller steps' overshoots and droops are left without advice: our own figures. */
    private static final double MUCH_OVERSHOOT_PERCENT = 10;

    private static final double MUCH_DROOP_PERCENT = 2;

    /** Ripple lines below this share of the mean matter to no work that we know of. */
    private static final double LEAST_LINE_PERCENT = 0.1;

    /** Slower drifts than this a minute call for nothing: our own figure [%]. */
    private static final double LEAST_DRIFT_PERCENT = 0.5;

    /** A multiple of a hunting's frequency is met to this share of itself: its frequency is read from few periods. */
    private static final double NEAR_MULTIPLE = 0.03;

    /** An entry of the page. */
    public record Entry(String about, String causes, String next, boolean mains) {}

    private final Advice advice = Advice.usual();
    private final Map<String, Entry> entries = new LinkedHashMap<>();

    private AdviceList() {}

    static List<Entry> of(Outcome outcome, SpeedHeld held) {
        AdviceList list = new AdviceList();
        if (outcome instanceof Outcome.Analysed analysed && analysed.rotation().isPresent()) {
            Rotation rotation = analysed.rotation().get();
            list.urgent(rotation);
            // a wrong number of poles makes blips and ripple of the magnet's own pattern: no advice on the circuit from
            // that
            boolean poles = analysed.findings().stream().anyMatch(f -> f.code() == FindingCode.POLE_COUNT);
            boolean recordingFirst = poles || held == SpeedHeld.CANNOT_TELL;
            if (recordingFirst) {
                list.recording(outcome);
            }
            if (!poles) {
                list.disturbances(rotation);
            }
            list.recording(outcome);
            if (!poles) {
                list.minor(rotation);
            }
        } else {
            list.recording(outcome);
        }
        return new ArrayList<>(list.entries.values());
    }

    private void add(String group, String name, String about) {
        advice.rule(group, name)
                .ifPresent(rule -> entries.putIfAbsent(
                        group + "." + name, new Entry(about, rule.causes(), rule.next(), rule.mains())));
    }

    private void urgent(Rotation rotation) {
        for (Alarm alarm : rotation.alarms()) {
            add("alarm", alarm.code().name(), CheckWords.alarm(alarm.code()));
        }
    }

    /** Notes call for nothing. */
    private void recording(Outcome outcome) {
        for (Finding finding : outcome.findings()) {
            if (finding.severity() != Finding.Severity.NOTE) {
                add("finding", finding.code().name(), "The recording: " + CheckWords.fault(finding.code()));
            }
        }
    }

    private void disturbances(Rotation rotation) {
        for (Blip blip : rotation.blips().map(Blips::events).orElse(List.of())) {
            add("blip", blip.cause().name(), "Blips: " + blip.cause().word());
        }
        rotation.hunting()
                .ifPresent(hunting -> add(
                        "hunting",
                        hunting.trend().name(),
                        String.format(
                                Locale.ROOT,
                                "Hunting, %s: a swing every %s s",
                                hunting.trend().word(),
                                Numbers.significant(1 / hunting.frequencyHz(), 2))));
        for (RippleLine line : rotation.spectrum().lines()) {
            // a slow swing gets its advice above, where it lasts, and so do the harmonics of hunting that is not round
            boolean slowSwing = line.cause() == RippleCause.HUNTING
                    || line.cause() == RippleCause.SWING && isHarmonic(line, rotation.hunting());
            if (line.amplitudePercent() >= LEAST_LINE_PERCENT && !slowSwing) {
                add("ripple", line.cause().name(), "Ripple: " + line.cause().word());
            }
        }
        boolean hidden = rotation.ripple()
                .flatMap(r -> r.twiceMains().untold())
                .filter(u -> u.why() == Untold.Why.SHAFT_ORDER)
                .isPresent();
        if (hidden) {
            add("ripple", "COINCIDES", "Ripple: mains and shaft coincide");
        }
        for (Step step : rotation.steps()) {
            if (step.overshootPercent() > MUCH_OVERSHOOT_PERCENT) {
                add("other", "OVERSHOOT", "Overshoot");
            }
        }
        for (LoadEvent event : rotation.loadEvents()) {
            if (event.droopPercent().orElse(0) > MUCH_DROOP_PERCENT) {
                add("other", "DROOP", "Droop under load");
            }
        }
    }

    private static boolean isHarmonic(RippleLine line, Optional<Hunting> hunting) {
        double multiple = hunting.map(h -> line.frequencyHz() / h.frequencyHz()).orElse(0.0);
        return multiple > 0.5 && Math.abs(multiple - Math.rint(multiple)) < NEAR_MULTIPLE * multiple;
    }

    /** What matters little to a speed that is held. */
    private void minor(Rotation rotation) {
        rotation.drift()
                .filter(d -> d.significant() && Math.abs(d.percentPerMinute()) >= LEAST_DRIFT_PERCENT)
                .ifPresent(drift -> add("other", "DRIFT", "Drift"));
        rotation.pattern()
                .filter(pattern -> pattern.largestPercent() > COMMON_PATTERN_PERCENT)
                .ifPresent(pattern -> add("other", "POLE_PATTERN", "The tacho's poles"));
    }
}
