package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.simulate.Disturbance;
import org.steadyshaft.simulate.RecorderFaults;
import org.steadyshaft.simulate.Scenario;
import org.steadyshaft.simulate.ScenarioReader;
import org.steadyshaft.simulate.SimulatedCapture;
import org.steadyshaft.stability.Alarm;

/**
 * Simulates scenarios from seeds, analyses them and holds what is said against the truth by kind: blips with size and cause, ripple at the
 * mains and twice the mains, lines of belt and wheel, mean speed, alarms, recorder faults. Prints a line a run and the counts. A wrong
 * statement is FALSE, one that should have been made and was not MISSED.
 *
 * <p>Arguments: number of seeds (3), then names of scenarios (all).
 */
public final class ScenarioBench {
    /** Smaller blips and lines are not asked for. */
    private static final double LEAST_BLIP_PERCENT = 0.5;

    private static final double SAME_SECONDS = 0.06;
    private static final double BESIDE_CHANGE_SECONDS = 1;
    private static final double RUNS_AWAY = 1.3;

    /** What a simulated run is held against. */
    record Result(String scenario, long seed, List<String> wrong, List<String> missed, int blips, int found) {
        boolean isFalse() {
            return !wrong.isEmpty();
        }
    }

    private static final Map<RecorderFaults.Kind, Set<FindingCode>> TOLD_AS = Map.of(
            RecorderFaults.Kind.NOISE_BURST, Set.of(FindingCode.NOISE_BURST),
            RecorderFaults.Kind.CRACKLE,
                    Set.of(FindingCode.NOISE_BURST, FindingCode.LEAD_OPEN, FindingCode.GAP, FindingCode.SPIKES),
            RecorderFaults.Kind.OPEN_LEAD, Set.of(FindingCode.LEAD_OPEN, FindingCode.GAP),
            RecorderFaults.Kind.LEVEL_STEP, Set.of(FindingCode.LEVEL_STEP),
            RecorderFaults.Kind.OFFSET_STEP, Set.of(FindingCode.OFFSET_STEP),
            RecorderFaults.Kind.HUM_STEP, Set.of(FindingCode.HUM_STEP),
            RecorderFaults.Kind.LOST_SAMPLES, Set.of(FindingCode.SAMPLES_LOST, FindingCode.GAP),
            RecorderFaults.Kind.DOUBLED_SAMPLES, Set.of(FindingCode.SAMPLES_DOUBLED, FindingCode.GAP));

    private final SimulatedCapture capture;
    private final Scenario scenario;
    private final Outcome.Analysed outcome;
    private final List<String> wrong = new ArrayList<>();
    private final List<String> missed = new ArrayList<>();
    private int blips;
    private int found;

    private ScenarioBench(SimulatedCapture capture, Outcome.Analysed outcome) {
        this.capture = capture;
        this.scenario = capture.scenario();
        this.outcome = outcome;
    }

    public static void main(String[] arguments) {
        int seeds = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 3;
        List<String> names =
                arguments.length > 1 ? List.of(arguments).subList(1, arguments.length) : ScenarioReader.names();
        List<Result> results = names.stream()
                .flatMap(name -> LongStream.rangeClosed(1, seeds).mapToObj(seed -> result(name, seed)))
                .toList();
        System.out.print(table(results));
    }

    /** Simulates, analyses and judges one run. */
    static Result result(String name, long seed) {
        Scenario scenario = ScenarioReader.read(name);
        SimulatedCapture capture =
                scenario.make(seed, OptionalDouble.empty(), scenario.recorder().kind());
        CaptureLabel label = new CaptureLabel(
                scenario.sheet().get("circuit"),
                scenario.sheet().get("setting"),
                scenario.sheet().get("load"),
                "",
                scenario.sheet());
        Outcome.Analysed outcome = Analysed.with(capture.recording(), scenario.polePairs(), label);
        ScenarioBench bench = new ScenarioBench(capture, outcome);
        bench.judge();
        return new Result(name, seed, bench.wrong, bench.missed, bench.blips, bench.found);
    }

    private void judge() {
        boolean turns = capture.meanRpm() > 20;
        if (outcome.rotation().isEmpty()) {
            (turns ? missed : new ArrayList<String>()).add("no speed: " + outcome.findings());
            return;
        }
        Rotation rotation = outcome.rotation().get();
        boolean wrongRate = scenario.recorder().oddities().headerRateHz().isPresent();
        if (wrongRate) {
            want(FindingCode.RATE_SUSPECT);
            return;
        }
        mean(rotation);
        alarms(rotation);
        if (!isUnruly()) {
            blips(rotation);
            lines(rotation);
        }
        for (RecorderFaults.Fault fault : scenario.faults()) {
            Set<FindingCode> codes = TOLD_AS.get(fault.kind());
            if (codes().stream().noneMatch(codes::contains)) {
                missed.add(fault.kind().word() + " not told");
            }
        }
    }

    private Set<FindingCode> codes() {
        return outcome.findings().stream().map(f -> f.code()).collect(Collectors.toSet());
    }

    private void want(FindingCode code) {
        if (!codes().contains(code)) {
            missed.add(code + " not told");
        }
    }

    /** Whether the speed goes through the roof or a gate misfires all the time: no blip or line is asked of it. */
    private boolean isUnruly() {
        return runsAway() || capture.events().size() > 2 * capture.seconds();
    }

    private void mean(Rotation rotation) {
        // over what was counted: stops and gaps are left out of the mean
        double turns = 0;
        double seconds = 0;
        for (int i = 0; i < rotation.track().size(); i++) {
            double from = rotation.track().fromSeconds(i);
            double to = Math.min(capture.seconds(), rotation.track().toSeconds(i));
            turns += capture.shaft().turns(to) - capture.shaft().turns(from);
            seconds += to - from;
        }
        double truth = 60 * turns / seconds;
        double off = Math.abs(rotation.speed().meanRpm() - truth);
        // what is lost or cut moves the ends of what was counted
        double share =
                scenario.faults().isEmpty() && scenario.recorder().lostSeconds().isEmpty() && !isUnruly() ? 1e-4 : 5e-3;
        if (off > 1.5 * rotation.speed().expandedRpm() && off > share * truth) {
            wrong.add(String.format(
                    Locale.ROOT,
                    "mean %.3f +- %.3f rpm for %.3f",
                    rotation.speed().meanRpm(),
                    rotation.speed().expandedRpm(),
                    truth));
        }
    }

    private boolean runsAway() {
        double end = capture.seconds();
        double last = capture.meanRpm(end - Math.min(0.5, end), end);
        double first = 0;
        for (double t = 0; t < 0.5 * end; t += 0.05) {
            first = Math.max(first, capture.shaft().rpm(t));
        }
        double level = first;
        // a run that begins with the recording has no level to leave
        return last > RUNS_AWAY * level
                && scenario.settleSeconds() > 0
                && scenario.setPointSteps().stream().noneMatch(s -> s.rpm() > level);
    }

    private void alarms(Rotation rotation) {
        boolean told = rotation.alarms().stream().anyMatch(a -> a.code() == Alarm.Code.RUNAWAY);
        if (told != runsAway()) {
            (told ? wrong : missed).add(told ? "false RUNAWAY" : "RUNAWAY not told");
        }
        boolean opens = scenario.faults().stream().anyMatch(f -> f.kind() == RecorderFaults.Kind.OPEN_LEAD);
        rotation.alarms().stream()
                .filter(a -> a.code() == Alarm.Code.LEAD_OPEN && !opens)
                .forEach(a -> wrong.add("false " + a.text()));
    }

    private void blips(Rotation rotation) {
        List<Blip> left = new ArrayList<>(rotation.blips().map(b -> b.events()).orElse(List.of()));
        List<Double> off = new ArrayList<>();
        for (SimulatedCapture.Event event : capture.events()) {
            Optional<Blip> hit = left.stream()
                    .filter(b -> Math.abs(b.fromSeconds() - event.timeSeconds()) < SAME_SECONDS
                            || Math.abs(b.peakSeconds() - event.peakSeconds()) < SAME_SECONDS)
                    .findFirst();
            boolean asked = Math.abs(event.peakPercent()) >= LEAST_BLIP_PERCENT;
            blips += asked ? 1 : 0;
            found += asked && hit.isPresent() ? 1 : 0;
            if (hit.isPresent()) {
                left.remove(hit.get());
                off.add(Math.abs(hit.get().peakPercent() / event.peakPercent() - 1));
                String cause = hit.get().cause().word();
                boolean sure = Math.abs(event.peakPercent()) >= LEAST_BLIP_PERCENT;
                if (sure && !cause.equals(event.kind().word())) {
                    wrong.add(event.kind().word() + " at " + event.timeSeconds() + " s told as " + cause);
                }
            }
        }
        off.sort(null);
        if (!off.isEmpty() && off.get(off.size() / 2) > 0.15) {
            wrong.add(String.format(Locale.ROOT, "sizes of blips off by %.0f %%", 100 * off.get(off.size() / 2)));
        }
        left.removeIf(b -> scenario.changes().stream()
                        .anyMatch(c -> Math.abs(c.timeSeconds() - b.fromSeconds()) < BESIDE_CHANGE_SECONDS)
                || capture.motion().disturbances().stream()
                        .map(Disturbance::timeSeconds)
                        .anyMatch(t -> Math.abs(t - scenario.settleSeconds() - b.fromSeconds()) < 0.2));
        if (!left.isEmpty()) {
            wrong.add(left.size() + " invented blips, first " + left.get(0));
        }
        if (found < 0.9 * blips) {
            missed.add(found + " of " + blips + " blips found");
        }
    }

    private void lines(Rotation rotation) {
        // where the speed changes on purpose a line of the whole run has no one size
        if (rotation.steady().isEmpty()
                || !scenario.changes().isEmpty()
                || !scenario.setPointSteps().isEmpty()) {
            return;
        }
        double from = rotation.steady().get(0).fromSeconds();
        double to = rotation.steady().get(rotation.steady().size() - 1).toSeconds();
        double hz = scenario.mains().frequencyHz();
        for (int multiple = 1; multiple <= 2; multiple++) {
            double truth = capture.mainsPercent(multiple, from, to);
            double at = multiple * hz;
            Optional<RippleLine> line = rotation.spectrum().lines().stream()
                    .filter(l -> Math.abs(l.frequencyHz() - at) < 0.3)
                    .findFirst();
            line.filter(l -> Math.abs(l.amplitudePercent() - truth) > 0.15 * truth + 2 * l.expandedPercent() + 0.01)
                    .ifPresent(l -> wrong.add(String.format(
                            Locale.ROOT,
                            "%.0f Hz: %.3f +- %.3f %% for %.3f",
                            at,
                            l.amplitudePercent(),
                            l.expandedPercent(),
                            truth)));
        }
        for (Scenario.Order order : scenario.orders()) {
            double truth = capture.orderPercent(order.perTurn(), from, to);
            double at = order.perTurn() * capture.meanRpm(from, to) / 60;
            Optional<RippleLine> line = rotation.spectrum().lines().stream()
                    .filter(l -> Math.abs(l.frequencyHz() / at - 1) < 0.02)
                    .findFirst();
            if (truth > 0.1 && line.isEmpty()) {
                missed.add(String.format(Locale.ROOT, "%s: %.3f %% at %.2f Hz not told", order.cause(), truth, at));
            }
            line.filter(l -> Math.abs(l.amplitudePercent() - truth) > 0.2 * truth + 2 * l.expandedPercent())
                    .ifPresent(l -> wrong.add(String.format(
                            Locale.ROOT, "%s: %.3f %% for %.3f", order.cause(), l.amplitudePercent(), truth)));
        }
    }

    /** A line for each run that is not right, then the counts. */
    static String table(List<Result> results) {
        StringBuilder text = new StringBuilder();
        for (Result r : results) {
            if (!r.wrong.isEmpty() || !r.missed.isEmpty()) {
                text.append(String.format(
                        Locale.ROOT,
                        "%-6s %-26s seed %d: %s%n",
                        r.isFalse() ? "FALSE" : "MISSED",
                        r.scenario,
                        r.seed,
                        r.isFalse() ? r.wrong : r.missed));
            }
        }
        long wrong = results.stream().filter(Result::isFalse).count();
        long missed = results.stream()
                .filter(r -> !r.isFalse() && !r.missed.isEmpty())
                .count();
        text.append(String.format(
                Locale.ROOT,
                "%d runs: %d right, %d false, %d missed; blips %d of %d%n",
                results.size(),
                results.size() - wrong - missed,
                wrong,
                missed,
                results.stream().mapToInt(Result::found).sum(),
                results.stream().mapToInt(Result::blips).sum()));
        return text.toString();
    }
}
