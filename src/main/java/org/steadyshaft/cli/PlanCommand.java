package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.capture.RunSheetWriter;
import org.steadyshaft.file.WholeFiles;
import org.steadyshaft.plan.PlanRequest;
import org.steadyshaft.plan.Planner;
import org.steadyshaft.plan.RecordingPlan;
import org.steadyshaft.report.PlanLeaflet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What to record, before anything is recorded. */
@Command(
        name = "plan",
        description = {
            "Tells what to record so that a limit can be proven: rate, length, level and divider, speeds, and a list of runs.",
            "With --out it writes a page and the list as a run sheet, never over one that is there."
        },
        mixinStandardHelpOptions = true)
final class PlanCommand implements Callable<Integer> {
    /** More comes from no tacho winding, and from no divider of this kind. */
    private static final double MOST_TACHO_VOLTS = 500;

    private static final double LEAST_RPM = 1;
    private static final double MOST_RPM = 1e5;

    @Spec
    private CommandSpec spec;

    @Mixin
    private LeafletOutput output;

    @Option(names = "--top-rpm", paramLabel = "RPM", description = "highest speed of the motor's shaft to be recorded")
    private Double topRpm;

    @Option(
            names = "--lowest-rpm",
            paramLabel = "RPM",
            description = "lowest speed of the motor's shaft to be recorded (default: a tenth of the top)")
    private Double lowestRpm;

    @Option(
            names = "--pole-pairs",
            paramLabel = "N",
            defaultValue = "" + AnalysisSettings.ASSUMED_POLE_PAIRS,
            description = "cycles of the tacho a turn (default: ${DEFAULT-VALUE})")
    private int polePairs;

    @Option(names = "--tacho-volts", paramLabel = "V", description = "what a meter on AC reads at the tacho...")
    private Double tachoVolts;

    @Option(names = "--at-rpm", paramLabel = "RPM", description = "...at this speed")
    private Double atRpm;

    @Option(
            names = "--input-volts",
            paramLabel = "V",
            description = "peak voltage that the recorder's input takes without clipping")
    private Double inputVolts;

    @Option(names = "--input-ohms", paramLabel = "OHM", description = "resistance of that input")
    private Double inputOhms;

    @Option(
            names = "--bits",
            paramLabel = "N",
            defaultValue = "16",
            description = "of the recorder: 8 for most scopes, 16 or 24 for sound cards (default: ${DEFAULT-VALUE})")
    private int bits;

    @Option(names = "--blips", paramLabel = "N", description = "prove fewer blips a minute than this")
    private Double blips;

    @Option(names = "--ripple", paramLabel = "PERCENT", description = "prove less ripple than this, rms")
    private Double ripple;

    @Option(names = "--sag", paramLabel = "PERCENT", description = "prove less slowing under load than this")
    private Double sag;

    @Option(
            names = "--mains-hz",
            paramLabel = "50|60",
            defaultValue = "50",
            description = "mains (default: ${DEFAULT-VALUE})")
    private double mainsHz;

    @Option(
            names = "--circuits",
            paramLabel = "NAME",
            split = ",",
            defaultValue = "circuit A,circuit B",
            description = "names of the circuits, with commas between (default: ${DEFAULT-VALUE})")
    private List<String> circuits;

    @Option(
            names = "--loads",
            paramLabel = "NAME",
            split = ",",
            defaultValue = "none,2 kg clay",
            description = "names of the loads, the light one first (default: ${DEFAULT-VALUE})")
    private List<String> loads;

    @Override
    public Integer call() {
        RecordingPlan plan = new Planner().plan(request());
        return output.give(PlanLeaflet.of(plan), "plan", folder -> List.of(writeSheet(folder, plan)));
    }

    private PlanRequest request() {
        double top = needed(
                "--top-rpm",
                topRpm,
                "the highest speed of the motor's shaft that you will record; rate and level follow from it");
        double volts = needed(
                "--input-volts",
                inputVolts,
                "the peak voltage that the recorder's input takes; level and divider follow from it");
        double lowest = lowestRpm == null ? top / 10 : lowestRpm;
        check("--top-rpm", top, MOST_RPM);
        check("--lowest-rpm", lowest, top);
        if (lowest < LEAST_RPM) {
            throw wrong("--lowest-rpm: found " + lowest + "; expected 1 or more");
        }
        check("--input-volts", volts, 1e4);
        for (Map.Entry<String, Double> limit : given().entrySet()) {
            check(limit.getKey(), limit.getValue(), 1e9);
        }
        if (polePairs < 1 || polePairs > 999) {
            throw wrong("--pole-pairs: found " + polePairs + "; expected 1 to 999");
        }
        if (bits < 4 || bits > 32) {
            throw wrong("--bits: found " + bits + "; expected 4 to 32");
        }
        if (mainsHz != 50 && mainsHz != 60) {
            throw wrong("--mains-hz: found " + mainsHz + "; expected 50 or 60");
        }
        if (tachoVolts == null != (atRpm == null)) {
            throw wrong("--tacho-volts and --at-rpm belong together: what the tacho gives at which speed");
        }
        if (tachoVolts != null && !(tachoVolts * top / atRpm <= MOST_TACHO_VOLTS)) {
            throw wrong(String.format(
                    Locale.ROOT,
                    "--tacho-volts: %.4g V at %.4g rpm are %.4g V at the top speed; expected at most %.0f V",
                    tachoVolts,
                    atRpm,
                    tachoVolts * top / atRpm,
                    MOST_TACHO_VOLTS));
        }
        return new PlanRequest(
                top,
                lowest,
                polePairs,
                tachoVolts == null ? Optional.empty() : Optional.of(new PlanRequest.TachoVoltage(tachoVolts, atRpm)),
                new PlanRequest.Input(volts, optional(inputOhms), bits),
                new PlanRequest.Limits(optional(blips), optional(ripple), optional(sag)),
                mainsHz,
                named("--circuits", circuits),
                named("--loads", loads));
    }

    private List<String> named(String option, List<String> names) {
        List<String> named = names.stream()
                .map(String::strip)
                .filter(n -> !n.isEmpty())
                .distinct()
                .toList();
        if (named.isEmpty()) {
            throw wrong(option + ": found no name; expected one or more, with commas between");
        }
        return named;
    }

    /** Options that have no default and were given. */
    private Map<String, Double> given() {
        Map<String, Double> given = new LinkedHashMap<>();
        given.put("--tacho-volts", tachoVolts);
        given.put("--at-rpm", atRpm);
        given.put("--input-ohms", inputOhms);
        given.put("--blips", blips);
        given.put("--ripple", ripple);
        given.put("--sag", sag);
        given.values().removeIf(v -> v == null);
        return given;
    }

    private double needed(String option, Double value, String what) {
        if (value == null) {
            throw wrong("plan needs " + option + ": " + what);
        }
        return value;
    }

    private void check(String option, double value, double most) {
        if (!(value > 0 && value <= most)) {
            throw wrong(option + ": found " + value + "; expected above 0 and at most " + most);
        }
    }

    private static OptionalDouble optional(Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    /** The list of runs as a run sheet, unless there is one already. */
    private static String writeSheet(Path folder, RecordingPlan plan) throws IOException {
        Path sheet = folder.resolve(RunSheetWriter.USUAL_NAME);
        if (Files.exists(sheet, LinkOption.NOFOLLOW_LINKS)) {
            return sheet + " is there already and was left as it is";
        }
        List<Map<String, String>> rows = plan.runs().stream()
                .map(run -> Map.of(
                        "file", run.file(),
                        "circuit", run.circuit(),
                        "load", run.load(),
                        "pole_pairs", Integer.toString(plan.request().polePairs()),
                        "mains_hz", Long.toString(Math.round(plan.request().mainsHz())),
                        "note", "planned at " + Math.round(run.rpm()) + " rpm, round " + run.round()))
                .toList();
        WholeFiles.write(sheet, w -> RunSheetWriter.write(w, RunSheetWriter.COLUMNS, rows));
        return "The list of runs is in " + sheet + ": write in the settings and dates as you record";
    }
}
