package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.CaptureAnalyser;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.capture.CaptureException;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.capture.TextSource;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.signal.SampleSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells what a file is and whether it is usable; writes nothing. */
@Command(
        name = "inspect",
        description = "Tells what each file is, how it was read and whether it is usable; writes nothing.",
        mixinStandardHelpOptions = true)
final class InspectCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private CaptureOptions captureOptions;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "recordings")
    private List<Path> files;

    @Override
    public Integer call() {
        captureOptions.check();
        if (files.stream().noneMatch(Files::exists)) {
            Path first = files.get(0);
            throw new ParameterException(
                    spec.commandLine(),
                    first + ": " + InputFiles.problem(first, "a recording").orElse("is there no longer"));
        }
        int status = 0;
        for (Path file : files) {
            status = Math.max(status, inspect(file));
        }
        return status;
    }

    private int inspect(Path file) {
        PrintWriter out = spec.commandLine().getOut();
        try {
            SampleSource source = Recordings.open(file, file.toString(), captureOptions.read());
            AnalysisSettings settings = captureOptions.settings(OptionalInt.empty(), OptionalDouble.empty(), "");
            out.println(PlainText.of(source.name()));
            print(
                    "recording",
                    source.format().container() + ", " + source.format().encoding());
            if (source instanceof TextSource text) {
                text.inferred().forEach(line -> print("inferred", line));
            }
            print("rate", String.format(Locale.ROOT, "%.6g Hz", source.sampleRateHz()));
            print(
                    "length",
                    String.format(
                            Locale.ROOT,
                            "%d samples, %.3f s",
                            source.samples(),
                            source.samples() / source.sampleRateHz()));
            StringBuilder names = new StringBuilder();
            for (int c = 0; c < source.channels(); c++) {
                names.append(c == 0 ? "" : ", ").append(source.channelName(c));
            }
            print("channels", names.toString());
            Outcome.Analysed outcome = new CaptureAnalyser(settings).analyse(source, "", CaptureLabel.NONE);
            print("tacho", "channel " + outcome.source().channel());
            outcome.rotation().ifPresent(rotation -> print("turns", turns(rotation, settings)));
            for (Finding finding : outcome.findings()) {
                print(finding.severity().name().toLowerCase(Locale.ROOT), finding.code() + ": " + finding.text());
            }
            print("grade", outcome.grade().name().toLowerCase(Locale.ROOT));
            return outcome.grade() == Grade.UNUSABLE ? 1 : 0;
        } catch (CaptureException e) {
            return unusable(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            return unusable(file + ": cannot be read: " + Reasons.of(e));
        } catch (RuntimeException | Error e) {
            return unusable(file + ": " + Faults.words(e) + (Faults.isMemory(e) ? "" : Faults.keptElsewhere(e)));
        }
    }

    private int unusable(String message) {
        spec.commandLine().getErr().println("steadyshaft: " + PlainText.of(message));
        return 1;
    }

    private static String turns(Rotation rotation, AnalysisSettings settings) {
        double cycles = rotation.speed().meanRpm() * settings.polePairs() / 60;
        return String.format(
                Locale.ROOT,
                "%.3f rpm with %d pole pairs (%s); tacho at %.3f Hz",
                rotation.speed().meanRpm(),
                settings.polePairs(),
                settings.polePairsFrom().word(),
                cycles);
    }

    private void print(String name, String value) {
        spec.commandLine().getOut().println(String.format(Locale.ROOT, "  %-10s %s", name, PlainText.of(value)));
    }
}
