package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.function.DoubleConsumer;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.capture.FlacWriter;
import org.steadyshaft.capture.RunSheet;
import org.steadyshaft.capture.RunSheetWriter;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.file.NearNames;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.OutputRefusal;
import org.steadyshaft.file.OwnFile;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.file.WholeFiles;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.simulate.Scenario;
import org.steadyshaft.simulate.ScenarioReader;
import org.steadyshaft.simulate.SimulatedCapture;
import org.steadyshaft.simulate.TruthFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Makes captures with known truth from scenarios. */
@Command(
        name = "simulate",
        description = {
            "Makes captures of a simulated motor, each with a file that says what is true of it.",
            "Without a name it lists the scenarios. 'demo' stands for all captures of the pottery,",
            "which is how the folder recordings was made. A file that ends in .toml is a scenario of your",
            "own; --describe prints what may stand in it. All of it is invented: use it to learn what",
            "the report shows, and whether it would show what you look for."
        },
        mixinStandardHelpOptions = true)
final class SimulateCommand implements Callable<Integer> {
    private static final String DEMO = "demo";
    private static final String DEMO_PREFIX = "wheel";
    private static final String WAV = "wav";
    private static final String FLAC = "flac";
    private static final String TEXT = "text";
    private static final String TRUTH = ".truth.json";

    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "SCENARIO", arity = "0..*", description = "names of scenarios, files of your own, or demo")
    private List<String> names = List.of();

    @Option(
            names = "--out",
            paramLabel = "DIR",
            defaultValue = "simulated",
            description = "folder for captures, truth files and a run sheet (default: ${DEFAULT-VALUE})")
    private Path out;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "of what happens by chance; the same seed gives the same bytes (default: ${DEFAULT-VALUE})")
    private long seed;

    @Option(names = "--minutes", paramLabel = "M", description = "length of each capture (default: the scenario's own)")
    private Double minutes;

    @Option(
            names = "--format",
            paramLabel = "wav|flac|text",
            description = "a sound card's WAV or FLAC, or a scope's text (default: the scenario's own)")
    private String format;

    @Option(names = "--describe", description = "prints the keys of a scenario file and makes nothing")
    private boolean describe;

    @Override
    public Integer call() {
        PrintWriter console = spec.commandLine().getOut();
        if (describe) {
            for (ScenarioReader.Key key : ScenarioReader.keys()) {
                console.println(key.key() + " [" + key.unit() + "]"
                        + (key.otherwise().isEmpty() ? ", needed" : ", default " + key.otherwise())
                        + (key.meaning().isEmpty() ? "" : ": " + key.meaning()));
            }
            console.println("Parts that 'use' may name: " + String.join(", ", ScenarioReader.partNames()));
            return 0;
        }
        if (names.isEmpty()) {
            for (String name : ScenarioReader.names()) {
                console.println(String.format(
                        "%-32s %s", name, ScenarioReader.read(name).title()));
            }
            return 0;
        }
        check();
        List<Scenario> scenarios = scenarios();
        List<Path> read = names.stream()
                .filter(name -> name.endsWith(ScenarioReader.ENDING))
                .map(Path::of)
                .toList();
        try (OutputFolder folder = OutputFolder.claim(out, results(scenarios), read)) {
            List<String> files = new ArrayList<>();
            int all = (int) scenarios.stream().mapToDouble(this::runSeconds).sum();
            double before = 0;
            try (Terminal progress = Terminal.progress("simulating", all)) {
                for (Scenario scenario : scenarios) {
                    double done = before;
                    files.add(make(scenario, t -> progress.stepTo((long) (done + t))));
                    before += runSeconds(scenario);
                }
            } finally {
                files.forEach(file -> console.println("made " + folder.path().resolve(file)));
            }
            writeSheet(scenarios, files);
            return 0;
        } catch (OutputRefusal e) {
            throw wrong("--out: " + e.getMessage());
        } catch (IOException e) {
            String place = PlainText.of(out.toString());
            spec.commandLine()
                    .getErr()
                    .println("steadyshaft: captures cannot be written below " + place + ": " + Reasons.of(e));
            return 1;
        }
    }

    /** What will be written: a capture may be replaced where the truth beside it says that it was simulated. */
    private List<OwnFile> results(List<Scenario> scenarios) {
        List<OwnFile> results = new ArrayList<>();
        results.add(new OwnFile(RunSheetWriter.USUAL_NAME, SimulateCommand::isSimulatedSheet));
        for (Scenario scenario : scenarios) {
            String truth = scenario.name() + TRUTH;
            results.add(OwnFile.bearing(truth, TruthFile.SCHEMA));
            results.add(new OwnFile(
                    scenario.name() + ending(scenario),
                    capture -> OwnFile.bears(capture.resolveSibling(truth), TruthFile.SCHEMA)));
        }
        return results;
    }

    /** Whether every row of a sheet says that its capture was simulated: nobody added one of his own. */
    private static boolean isSimulatedSheet(Path sheet) {
        try {
            return RunSheet.read(sheet).rows().stream()
                    .allMatch(row -> row.note().startsWith(CaptureLabel.SIMULATED + ", seed "));
        } catch (IOException e) {
            return false;
        }
    }

    private void check() {
        if (minutes != null && !(minutes > 0 && minutes <= 600)) {
            throw wrong("--minutes: found " + minutes + "; expected above 0 and at most 600");
        }
        if (format != null && !List.of(WAV, FLAC, TEXT).contains(format)) {
            throw wrong("--format: found " + format + "; expected wav, flac or text");
        }
        if (out.toString().isEmpty()) {
            throw wrong("--out: found nothing; expected the name of a folder");
        }
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    private List<Scenario> scenarios() {
        List<Scenario> scenarios = new ArrayList<>();
        for (String name : names) {
            if (name.equals(DEMO)) {
                ScenarioReader.names().stream()
                        .filter(n -> n.startsWith(DEMO_PREFIX))
                        .map(ScenarioReader::read)
                        .forEach(scenarios::add);
            } else if (ScenarioReader.names().contains(name)) {
                scenarios.add(ScenarioReader.read(name));
            } else if (name.endsWith(ScenarioReader.ENDING)) {
                scenarios.add(own(name));
            } else {
                List<String> known = new ArrayList<>(ScenarioReader.names());
                known.add(DEMO);
                throw wrong("there is no scenario '" + name + "'"
                        + NearNames.word(name, known)
                                .map(near -> "; did you mean '" + near + "'?")
                                .orElse("")
                        + "; 'steadyshaft simulate' lists them");
            }
        }
        return scenarios;
    }

    private Scenario own(String file) {
        try {
            return ScenarioReader.read(Path.of(file));
        } catch (IOException e) {
            throw wrong(Reasons.of(e));
        } catch (IllegalArgumentException e) {
            throw wrong(e.getMessage());
        }
    }

    /** How long the machine runs for a recording. */
    private double runSeconds(Scenario scenario) {
        return scenario.settleSeconds() + (minutes == null ? scenario.seconds() : 60 * minutes);
    }

    private boolean isText(Scenario scenario) {
        return format == null ? scenario.recorder().kind() == Scenario.Recorder.Kind.SCOPE : format.equals(TEXT);
    }

    private boolean isFlac(Scenario scenario) {
        return format == null ? scenario.recorder().file() == Scenario.Recorder.File.FLAC : format.equals(FLAC);
    }

    private String ending(Scenario scenario) {
        return isText(scenario) ? ".csv" : isFlac(scenario) ? ".flac" : ".wav";
    }

    private String make(Scenario scenario, DoubleConsumer progress) throws IOException {
        OptionalDouble seconds = minutes == null ? OptionalDouble.empty() : OptionalDouble.of(60 * minutes);
        Scenario.Recorder recorder = scenario.recorder();
        boolean text = isText(scenario);
        SimulatedCapture capture = scenario.make(
                seed, seconds, text ? Scenario.Recorder.Kind.SCOPE : Scenario.Recorder.Kind.SOUND_CARD, progress);
        String file = scenario.name() + ending(scenario);
        if (text) {
            WholeFiles.make(
                    out.resolve(file),
                    part -> new ScopeTextWriter(
                                    2 * recorder.fullScaleVolts(), recorder.triggerSeconds(), recorder.decimals())
                            .write(capture.recording(), part));
        } else if (isFlac(scenario)) {
            WholeFiles.make(
                    out.resolve(file), part -> new FlacWriter(recorder.bits()).write(capture.recording(), part));
        } else {
            WholeFiles.make(out.resolve(file), part -> new WavWriter(recorder.bits()).write(capture.recording(), part));
        }
        WholeFiles.make(out.resolve(scenario.name() + TRUTH), part -> {
            try (var writer = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
                TruthFile.write(capture, writer);
            }
        });
        return file;
    }

    private void writeSheet(List<Scenario> scenarios, List<String> files) throws IOException {
        List<Map<String, String>> rows = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            Scenario scenario = scenarios.get(i);
            Map<String, String> row = new HashMap<>(scenario.sheet());
            row.put("file", files.get(i));
            row.put("pole_pairs", Integer.toString(scenario.polePairs()));
            row.put("mains_hz", Long.toString(Math.round(scenario.mains().frequencyHz())));
            row.put("note", CaptureLabel.SIMULATED + ", seed " + seed + ": " + scenario.title());
            rows.add(row);
        }
        List<String> columns = RunSheetWriter.COLUMNS.stream()
                .filter(c -> !c.equals("channel"))
                .toList();
        WholeFiles.write(out.resolve(RunSheetWriter.USUAL_NAME), w -> RunSheetWriter.write(w, columns, rows));
    }
}
