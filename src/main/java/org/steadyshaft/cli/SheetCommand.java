package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.CaptureAnalyser;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.capture.CaptureException;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.capture.RunSheetWriter;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.file.WholeFiles;
import org.steadyshaft.report.CheckWords;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.signal.SampleSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** A run sheet to begin with. */
@Command(
        name = "sheet",
        description = {
            "Writes run-sheet.csv for the recordings of a folder, with what can be told from them: the speed, the channel, a doubt about",
            "the pole pairs, the day of the file. Circuit, setting and load are for you to fill in. Never over a sheet that is there."
        },
        mixinStandardHelpOptions = true)
final class SheetCommand implements Callable<Integer> {
    private static final int SOME_UNUSABLE = 1;

    @Spec
    private CommandSpec spec;

    @Mixin
    private CaptureOptions captureOptions;

    @Parameters(paramLabel = "FOLDER", description = "folder of recordings")
    private Path folder;

    @Override
    public Integer call() {
        captureOptions.check();
        Path sheet = folder.resolve(RunSheetWriter.USUAL_NAME);
        if (!Files.isDirectory(folder)) {
            throw new ParameterException(
                    spec.commandLine(),
                    PlainText.of(folder + ": found no folder of this name; expected one with recordings"));
        }
        if (Files.exists(sheet, LinkOption.NOFOLLOW_LINKS)) {
            throw new ParameterException(
                    spec.commandLine(),
                    PlainText.of(sheet + " is there already; nothing was written (take it away or rename it)"));
        }
        JobList list = new JobList(captureOptions);
        list.add(folder);
        list.nothing().ifPresent(problem -> {
            throw new ParameterException(spec.commandLine(), PlainText.of(problem));
        });
        List<Map<String, String>> rows = new ArrayList<>();
        int status = 0;
        try (Terminal progress = Terminal.progress("look", list.jobs().size())) {
            for (CaptureJob job : list.jobs()) {
                Optional<Map<String, String>> row = row(job);
                row.ifPresent(rows::add);
                status = row.isPresent() ? status : SOME_UNUSABLE;
                progress.step();
            }
        }
        if (rows.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(),
                    PlainText.of(folder + ": found no recording that can be read; expected WAV, AIFF, FLAC or text"));
        }
        return written(sheet, rows) ? status : SOME_UNUSABLE;
    }

    private boolean written(Path sheet, List<Map<String, String>> rows) {
        try {
            WholeFiles.write(sheet, w -> RunSheetWriter.write(w, RunSheetWriter.COLUMNS, rows));
        } catch (IOException e) {
            spec.commandLine()
                    .getErr()
                    .println(
                            "steadyshaft: " + PlainText.of(sheet.toString()) + ": cannot be written: " + Reasons.of(e));
            return false;
        }
        spec.commandLine()
                .getOut()
                .println(PlainText.of(
                        "Wrote " + sheet + ", " + rows.size() + (rows.size() == 1 ? " recording" : " recordings")
                                + ". Fill in circuit, setting and load, and pole_pairs if you know them; then: steadyshaft "
                                + sheet));
        return true;
    }

    /** Empty where the recording cannot be read; that is told. */
    private Optional<Map<String, String>> row(CaptureJob job) {
        try {
            if (job.problem().isPresent()) {
                throw new CaptureException(job.problem().get());
            }
            SampleSource source = Recordings.open(job.file(), job.name(), captureOptions.read());
            Outcome.Analysed outcome = new CaptureAnalyser(job.settings()).analyse(source, "", CaptureLabel.NONE);
            return Optional.of(cells(job, source, outcome));
        } catch (CaptureException e) {
            tell(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            tell(job.name() + ": cannot be read: " + Reasons.of(e));
        }
        return Optional.empty();
    }

    private void tell(String problem) {
        spec.commandLine().getErr().println("steadyshaft: " + PlainText.of(problem) + "; left out of the sheet");
    }

    private Map<String, String> cells(CaptureJob job, SampleSource source, Outcome.Analysed outcome)
            throws IOException {
        Map<String, String> cells = new LinkedHashMap<>();
        cells.put("file", folder.relativize(job.file()).toString().replace('\\', '/'));
        if (source.channels() > 1 && outcome.rotation().isPresent()) {
            cells.put("channel", outcome.source().channel());
        }
        if (outcome.settings().polePairsFrom() != AnalysisSettings.PolePairsFrom.ASSUMED) {
            cells.put("pole_pairs", Integer.toString(outcome.settings().polePairs()));
        }
        cells.put(
                "date",
                LocalDate.ofInstant(Files.getLastModifiedTime(job.file()).toInstant(), ZoneOffset.UTC)
                        .toString());
        cells.put("note", note(outcome));
        return cells;
    }

    /** What the recording shows, in a few words. */
    private static String note(Outcome.Analysed outcome) {
        List<String> words = new ArrayList<>();
        outcome.rotation().map(r -> speed(r, outcome.settings().polePairs())).ifPresent(words::add);
        outcome.findings().stream()
                .filter(f -> f.code() == FindingCode.POLE_COUNT)
                .findFirst()
                .ifPresent(f -> words.add("pole pairs doubtful: steadyshaft poles"));
        if (outcome.grade() != Grade.GOOD) {
            words.add(outcome.grade().name().toLowerCase(Locale.ROOT) + " ("
                    + CheckWords.fault(outcome.findings().get(0).code()) + ")");
        }
        return String.join("; ", words);
    }

    private static String speed(Rotation rotation, int polePairs) {
        return String.format(
                Locale.ROOT, "%.0f rpm with %d pole pairs", rotation.speed().meanRpm(), polePairs);
    }
}
