package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.steadyshaft.report.BatchWriter;
import org.steadyshaft.report.CaptureSummary;
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
        JobList list = new JobList(captureOptions);
        (inputs.isEmpty() ? List.of(USUAL_SHEET) : inputs).forEach(list::add);
        refuseToOverwrite(list.jobs());
        PrintWriter err = spec.commandLine().getErr();
        try {
            Files.createDirectories(out);
            List<CaptureSummary> summaries = analyse(list.jobs());
            new BatchWriter(out).write(summaries);
            PrintWriter console = spec.commandLine().getOut();
            SummaryTable.print(summaries, console);
            summaries.stream().filter(s -> !s.usable()).forEach(s -> err.println(line(s)));
            console.println("Open " + out.resolve("index.html"));
            return summaries.stream().allMatch(CaptureSummary::usable) ? 0 : SOME_UNUSABLE;
        } catch (IOException e) {
            err.println("steadyshaft: results cannot be written below " + out + ": " + Reasons.of(e));
            return SOME_UNUSABLE;
        }
    }

    private void refuseToOverwrite(List<CaptureJob> list) {
        for (String name : List.of("summary.csv", "index.html")) {
            Path result = out.resolve(name).toAbsolutePath().normalize();
            if (list.stream()
                    .anyMatch(job -> job.file().toAbsolutePath().normalize().equals(result))) {
                throw new ParameterException(
                        spec.commandLine(),
                        "--out: " + result + " is one of the inputs and would be overwritten; name another folder");
            }
        }
    }

    private List<CaptureSummary> analyse(List<CaptureJob> list) throws IOException {
        int processors = Runtime.getRuntime().availableProcessors();
        int threads = Math.max(1, Math.min(list.size(), jobs == null ? processors : jobs));
        try (Terminal progress = Terminal.progress("analyse", list.size())) {
            return new BatchRunner(out, captureOptions.read(), threads).run(list, progress::step);
        }
    }

    /** One clear line for an unusable capture; where it was unreadable the message begins with the file's name already. */
    private static String line(CaptureSummary summary) {
        String text = summary.findings().get(0).text();
        String named = text.startsWith(summary.file() + ":") ? text : summary.file() + ": " + text;
        return "steadyshaft: " + PlainText.of(named);
    }
}
