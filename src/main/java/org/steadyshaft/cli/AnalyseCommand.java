package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.steadyshaft.compare.Comparer;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.LimitsReader;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Work;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.report.BatchWriter;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.StoredCapture;
import org.steadyshaft.signal.PlainText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The main job: recordings in, results and pages out. */
@Command(
        name = "analyse",
        description = "Analyses recordings and writes results and pages; goes on past a bad one.",
        mixinStandardHelpOptions = true)
final class AnalyseCommand implements Callable<Integer> {
    private static final int SOME_UNUSABLE = 1;
    private static final Path USUAL_SHEET = Path.of("recordings", "run-sheet.csv");

    @Spec
    private CommandSpec spec;

    @Mixin
    private CaptureOptions captureOptions;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            defaultValue = "reports",
            description = "folder for the results (default: ${DEFAULT-VALUE})")
    private Path out;

    @Option(names = "--jobs", paramLabel = "N", description = "captures at a time (default: one a processor)")
    private Integer jobs;

    @Option(
            names = "--limits",
            paramLabel = "FILE",
            description = "what the work needs (TOML); exit status 1 if a circuit is proven to miss it")
    private Path limits;

    @Option(names = "--fresh", description = "analyse also what was analysed before with the same settings")
    private boolean fresh;

    @Parameters(
            paramLabel = "INPUT",
            description = "recordings, folders of recordings, or run sheets (default: recordings/run-sheet.csv)")
    private List<Path> inputs = List.of();

    @Override
    public Integer call() {
        captureOptions.check();
        if (jobs != null && (jobs < 1 || jobs > 256)) {
            throw new ParameterException(spec.commandLine(), "--jobs: found " + jobs + "; expected 1 to 256");
        }
        if (inputs.isEmpty() && !Files.exists(USUAL_SHEET)) {
            throw new ParameterException(
                    spec.commandLine(), "no inputs, and there is no " + USUAL_SHEET + " in this folder");
        }
        if (out.toString().isEmpty()) {
            throw new ParameterException(spec.commandLine(), "--out: found nothing; expected the name of a folder");
        }
        List<Work> works = works();
        JobList list = new JobList(captureOptions);
        (inputs.isEmpty() ? List.of(USUAL_SHEET) : inputs).forEach(list::add);
        refuseToOverwrite(list.jobs());
        PrintWriter err = spec.commandLine().getErr();
        try {
            Files.createDirectories(out);
            List<StoredCapture> captures = analyse(list.jobs());
            List<CaptureSummary> summaries =
                    captures.stream().map(StoredCapture::summary).toList();
            Optional<Comparison> comparison = compare(captures, works);
            boolean several =
                    comparison.isPresent() && comparison.get().circuits().size() > 1;
            new BatchWriter(out).write(summaries, several ? comparison : Optional.empty());
            PrintWriter console = spec.commandLine().getOut();
            SummaryTable.print(summaries, console);
            summaries.stream().filter(s -> !s.usable()).forEach(s -> err.println(line(s)));
            console.println("Open " + out.resolve("index.html"));
            boolean fails =
                    limits != null && comparison.isPresent() && comparison.get().somethingFails();
            if (fails) {
                tellFailures(comparison.get(), err);
            }
            if (several) {
                console.println("Open " + out.resolve("comparison.html") + " for which circuit is better");
            }
            return summaries.stream().allMatch(CaptureSummary::usable) && !fails ? 0 : SOME_UNUSABLE;
        } catch (IOException e) {
            err.println("steadyshaft: results cannot be written below " + out + ": " + Reasons.of(e));
            return SOME_UNUSABLE;
        }
    }

    /** What the work needs: the user's file, or the starting points. */
    private List<Work> works() {
        if (limits == null) {
            return LimitsReader.startingPoints();
        }
        try {
            return LimitsReader.read(limits);
        } catch (IOException e) {
            throw new ParameterException(spec.commandLine(), "--limits: " + e.getMessage());
        }
    }

    private Optional<Comparison> compare(List<StoredCapture> captures, List<Work> works) {
        List<Run> runs = captures.stream().flatMap(c -> c.run().stream()).toList();
        return runs.isEmpty() ? Optional.empty() : Optional.of(new Comparer(works, limits != null).compare(runs));
    }

    private static void tellFailures(Comparison comparison, PrintWriter err) {
        for (WorkCheck check : comparison.checks()) {
            if (check.status() == WorkCheck.Status.FAIL) {
                err.println(PlainText.of(String.format(
                        Locale.ROOT,
                        "steadyshaft: %s is not good enough for %s: %s %.3g %s at %s; the limit is %.3g",
                        check.circuit(),
                        check.work().title(),
                        check.measure().title(),
                        check.value(),
                        check.measure().unit(),
                        check.band().words(),
                        check.most())));
            }
        }
    }

    private void refuseToOverwrite(List<CaptureJob> list) {
        for (String name :
                List.of("summary.csv", "index.html", "comparison.html", "comparison.json", "comparison.csv")) {
            Path result = out.resolve(name).toAbsolutePath().normalize();
            if (list.stream()
                    .anyMatch(job -> job.file().toAbsolutePath().normalize().equals(result))) {
                throw new ParameterException(
                        spec.commandLine(),
                        "--out: " + result + " is one of the inputs and would be overwritten; name another folder");
            }
        }
    }

    private List<StoredCapture> analyse(List<CaptureJob> list) throws IOException {
        int processors = Runtime.getRuntime().availableProcessors();
        int threads = Math.max(1, Math.min(list.size(), jobs == null ? processors : jobs));
        try (Terminal progress = Terminal.progress("analyse", list.size())) {
            return new BatchRunner(out, captureOptions.read(), threads, fresh).run(list, progress::step);
        }
    }

    /** One clear line for an unusable capture; where it was unreadable the message begins with the file's name already. */
    private static String line(CaptureSummary summary) {
        String text = summary.findings().get(0).text();
        String named = text.startsWith(summary.file() + ":") ? text : summary.file() + ": " + text;
        return "steadyshaft: " + PlainText.of(named);
    }
}
