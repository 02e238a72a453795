package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.steadyshaft.plan.Divider;
import org.steadyshaft.plan.PlanRequest;
import org.steadyshaft.plan.RecordingPlan;

/** A recording plan in words. */
public final class PlanLeaflet {
    private static final String CAUTION =
            "The tacho's winding may share a connector with mains parts, and with a controller that is not isolated it is"
                    + " mains: check with the motor unplugged, and check the controller's circuit diagram, before anything is connected to a"
                    + " computer or a scope. A scope's earth clip on a live point makes a short circuit. A series motor without"
                    + " load can run away. Where local codes reserve this work, leave it to licensed people.";

    /** A period's error beyond this share of the ripple to be proven would be seen in it. */
    private static final double SMALL_SHARE = 0.1;

    /** Below so much of the input's range a recording is told to be low. */
    private static final double LOW_SHARE = 0.02;

    private static final double FEWEST_SAMPLES = 6;

    private PlanLeaflet() {}

    public static Leaflet of(RecordingPlan plan) {
        PlanRequest request = plan.request();
        String lead = String.format(
                Locale.ROOT,
                "Record at %.0f Hz or more, %.0f s each run, %d runs of each setting on different days: %d runs in all, %s of recording.",
                plan.rateHz(),
                plan.length().seconds(),
                plan.runsEach(),
                plan.runs().size(),
                CheckWords.span(plan.runs().size() * plan.length().seconds() / 60));
        List<Leaflet.Section> sections = new ArrayList<>();
        sections.add(Leaflet.Section.of("Rate", rate(plan)));
        sections.add(Leaflet.Section.of("Length and number of runs", length(plan)));
        sections.add(Leaflet.Section.of("Level at the input", level(plan)));
        sections.add(speeds(plan));
        sections.add(Leaflet.Section.of(
                "The list of runs",
                List.of(
                        "In the order in which to record them: a round on each day. Change the names as you like, and write in the"
                                + " setting that gives the speed."),
                List.of("file", "circuit", "speed", "load", "round"),
                plan.runs().stream()
                        .map(r -> List.of(
                                r.file(),
                                r.circuit(),
                                MotorVerdict.rpm(r.rpm()),
                                r.load(),
                                Integer.toString(r.round())))
                        .toList()));
        return new Leaflet(
                "What to record for " + MotorVerdict.rpm(request.lowestRpm()) + " to "
                        + MotorVerdict.rpm(request.topRpm()),
                lead,
                sections,
                CAUTION);
    }

    private static List<String> rate(RecordingPlan plan) {
        double samples = plan.rateHz() / plan.topHz();
        String fewer = samples >= FEWEST_SAMPLES
                ? ""
                : " That is too few: no usual recorder is fast enough for the top speed; record lower speeds only.";
        return List.of(String.format(
                Locale.ROOT,
                "The tacho gives %s to %s Hz. At %.0f Hz a cycle has %.0f samples at the top speed; twenty show the wave and its"
                        + " needles well, six are the least.%s",
                Numbers.significant(plan.lowestHz(), 3),
                Numbers.significant(plan.topHz(), 3),
                plan.rateHz(),
                samples,
                fewer));
    }

    private static List<String> length(RecordingPlan plan) {
        List<String> words = new ArrayList<>();
        PlanRequest.Limits limits = plan.request().limits();
        if (plan.length().blipMinutes().isPresent()) {
            words.add(String.format(
                    Locale.ROOT,
                    "Blips: %s minutes without a single one prove fewer than %s a minute (the two-sided 95 %% limit that the"
                            + " comparison uses; by a one-sided one %s would do). With some blips it takes longer.",
                    Numbers.significant(plan.length().blipMinutes().getAsDouble(), 3),
                    Numbers.machine(limits.blipsPerMinute().getAsDouble()),
                    Numbers.significant(plan.length().blipMinutesOneSided().getAsDouble(), 3)));
        }
        if (limits.ripplePercent().isPresent()) {
            words.add(
                    "Ripple: half a minute of steady running or more, so that the scatter from second to second can be told.");
        }
        if (limits.sagPercent().isPresent()) {
            words.add(
                    "Sag: every setting light and under load, with the knob left where it is: the lower the limit, the more"
                            + " it matters that runs repeat.");
        }
        words.add("One run tells how the circuit ran then; " + plan.runsEach()
                + " on different days tell whether it does so again. Let the motor warm up before the first.");
        return words;
    }

    private static List<String> level(RecordingPlan plan) {
        PlanRequest.Input input = plan.request().input();
        if (plan.level().isEmpty()) {
            return List.of(
                    "Say what the tacho gives (--tacho-volts at --at-rpm, by a meter on AC), and a divider and the level are"
                            + " reckoned, too.");
        }
        RecordingPlan.Level level = plan.level().get();
        List<String> words = new ArrayList<>();
        words.add(String.format(
                Locale.ROOT,
                "At %s the tacho peaks at %s V.",
                MotorVerdict.rpm(plan.request().topRpm()),
                Numbers.significant(level.tachoPeakVolts(), 3)));
        if (level.divider().isPresent()) {
            Divider d = level.divider().get();
            words.add(String.format(
                    Locale.ROOT,
                    "The input takes %s V: put %s in series and %s across the input (E12 values%s). That leaves %s V at the top speed, with"
                            + " room for an overshoot; the upper resistor turns %s W into heat, and a tacho of 600 ohm gives %s %% less.",
                    Numbers.significant(input.peakVolts(), 3),
                    ohms(d.upperOhms()),
                    ohms(d.lowerOhms()),
                    input.ohms().isPresent()
                            ? ", the input's own " + ohms(input.ohms().getAsDouble()) + " counted"
                            : "; the input's own resistance counts, too: say it with --input-ohms",
                    Numbers.significant(d.peakVolts(), 3),
                    Numbers.significant(d.upperWatts(), 2),
                    Numbers.significant(d.loadingPercent(), 2)));
            words.add(
                    "Use an upper resistor that is rated for the voltage, or two in series, and two clamp diodes to the input's supply"
                            + " or back to back across the input: the tacho gives more when the motor runs away.");
        } else {
            words.add("It fits the input as it is, with room for an overshoot.");
        }
        words.add(String.format(
                Locale.ROOT,
                "The %d bit steps move a single cycle by %s %% rms at the top speed and by %s %% at %s, where the input sees %s V.%s",
                input.bits(),
                Numbers.significant(level.topPercent(), 2),
                Numbers.significant(level.lowestPercent(), 2),
                MotorVerdict.rpm(plan.request().lowestRpm()),
                Numbers.significant(level.lowestVolts(), 2),
                remark(plan, level)));
        words.add(
                "Check before the first run: at the top speed the wave must not be cut off, and steadyshaft inspect must call the"
                        + " recording good.");
        return words;
    }

    private static String remark(RecordingPlan plan, RecordingPlan.Level level) {
        OptionalDouble ripple = plan.request().limits().ripplePercent();
        if (ripple.isPresent() && level.lowestPercent() > SMALL_SHARE * ripple.getAsDouble()) {
            return " That is too much beside the ripple to be proven: record the low speeds with a gain or a divider of their own.";
        }
        return level.lowestVolts() < LOW_SHARE * plan.request().input().peakVolts()
                ? " That is low: record the low speeds with a gain or a divider of their own."
                : "";
    }

    private static String ohms(double ohms) {
        return ohms >= 1e6
                ? Numbers.significant(ohms / 1e6, 2) + " Mohm"
                : ohms >= 1000 ? Numbers.significant(ohms / 1000, 2) + " kohm" : Numbers.significant(ohms, 2) + " ohm";
    }

    private static Leaflet.Section speeds(RecordingPlan plan) {
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < plan.speeds().size(); i++) {
            double rpm = plan.speeds().get(i);
            rows.add(List.of(
                    MotorVerdict.rpm(rpm),
                    Numbers.significant(rpm * plan.request().polePairs() / 60, 3) + " Hz",
                    Numbers.fixed(plan.seen().get(i), 3)));
        }
        List<String> avoid = plan.avoid().stream().map(s -> Numbers.fixed(s, 0)).toList();
        return Leaflet.Section.of(
                "Speeds",
                List.of(
                        avoid.isEmpty()
                                ? "No speed of this range stands in the way of reading a swing of the mains."
                                : "Keep 3 % away from " + CheckWords.list(avoid)
                                        + " rpm: there the mains' swing coincides with the tacho's own pattern or with pick-up and cannot be told.",
                        plan.request().lowestRpm() < plan.denseBelowRpm()
                                ? "Below " + MotorVerdict.rpm(plan.denseBelowRpm())
                                        + " such speeds lie closer than that to one another: the middle between two is the best there is."
                                : "These speeds keep away.",
                        "The last column is what counting whole cycles shows of a swing at twice the mains; the"
                                + " program reads the wave itself, and so sees all of it."),
                List.of("speed", "tacho", "by cycles alone"),
                rows);
    }
}
