package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.steadyshaft.compare.Comparer;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.LimitsReader;
import org.steadyshaft.compare.LoadWords;
import org.steadyshaft.compare.Needs;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.file.NearNames;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.OutputRefusal;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.report.BatchWriter;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.DecisionWords;
import org.steadyshaft.report.ReportWriter;
import org.steadyshaft.report.ResultFiles;
import org.steadyshaft.report.SharePage;
import org.steadyshaft.report.StoredCapture;
import org.steadyshaft.report.Ways;
import org.steadyshaft.signal.PlainText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi.Style;
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

    @Option(names = "--open", description = "show the pages when done")
    private boolean open;

    @Option(names = "--single", description = "also put all pages into one file to pass on, share.html in DIR")
    private boolean single;

    @Option(names = "--quiet", description = "tell what is wrong only: no table, no progress")
    private boolean quiet;

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
        Needs needs = needs();
        JobList list = new JobList(captureOptions);
        List<Path> asked = inputs.isEmpty() ? List.of(USUAL_SHEET) : inputs;
        asked.forEach(this::refuseWord);
        asked.forEach(list::add);
        list.nothing().ifPresent(problem -> {
            throw new ParameterException(spec.commandLine(), PlainText.of(problem));
        });
        List<Path> read = new ArrayList<>(list.read());
        Stream.ofNullable(limits).forEach(read::add);
        try (OutputFolder folder = OutputFolder.claim(out, ResultFiles.ofTheBatch(), read)) {
            return analyse(folder, list.jobs(), needs);
        } catch (OutputRefusal e) {
            throw new ParameterException(spec.commandLine(), "--out: " + PlainText.of(e.getMessage()));
        } catch (IOException e) {
            spec.commandLine()
                    .getErr()
                    .println("steadyshaft: results cannot be written below " + PlainText.of(out.toString()) + ": "
                            + Reasons.of(e));
            return SOME_UNUSABLE;
        }
    }

    /** A plain word that names no file is a command that there is not. */
    private void refuseWord(Path input) {
        String word = input.toString();
        boolean plain = input.getNameCount() == 1 && !input.isAbsolute() && word.indexOf('.') < 0;
        if (plain && !Files.exists(input)) {
            throw new ParameterException(
                    spec.commandLine(),
                    "there is no command and no file '" + PlainText.of(word) + "'"
                            + NearNames.word(word, Main.words(spec.commandLine()))
                                    .or(() -> NearNames.file(input))
                                    .map(near -> "; did you mean '" + near + "'?")
                                    .orElse(""));
        }
    }

    private int analyse(OutputFolder folder, List<CaptureJob> jobList, Needs needs) throws IOException {
        List<StoredCapture> captures = captures(folder, jobList, needs);
        List<CaptureSummary> summaries =
                captures.stream().map(StoredCapture::summary).toList();
        PrintWriter console = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        Optional<Comparison> comparison = Optional.empty();
        boolean faulty = false;
        try {
            comparison = compare(captures, needs);
            new BatchWriter(out).write(summaries, comparison.filter(AnalyseCommand::isOfSeveral));
        } catch (RuntimeException | Error e) {
            // the captures' own pages are there, and worth an index
            faulty = true;
            comparison = Optional.empty();
            new BatchWriter(out).write(summaries, Optional.empty());
            err.println("steadyshaft: the circuits cannot be compared: "
                    + PlainText.of(Faults.words(e) + (Faults.isMemory(e) ? "" : Faults.keptElsewhere(e))));
        }
        boolean several = comparison.filter(AnalyseCommand::isOfSeveral).isPresent();
        renewWays(captures, several);
        Screen screen = Screen.here();
        summaries.stream()
                .filter(CaptureSummary::ranAway)
                .forEach(s -> err.println(
                        screen.in(Style.fg_red, PlainText.of("steadyshaft: " + s.file() + ": " + s.verdict()))));
        if (!quiet) {
            SummaryTable.print(summaries, screen, console);
            console.println("Open " + out.resolve("index.html"));
        }
        summaries.stream().filter(s -> !s.usable()).forEach(s -> err.println(line(s)));
        boolean fails =
                limits != null && comparison.isPresent() && comparison.get().somethingFails();
        if (fails) {
            tellFailures(comparison.get(), err);
        }
        if (several && !quiet) {
            console.println(PlainText.of(new DecisionWords(comparison.get()).headline()));
            console.println("Open " + out.resolve("comparison.html") + " for which circuit is better");
        }
        if (single) {
            Path shared = new SharePage(out, summaries, several).write();
            if (!quiet) {
                console.println(
                        "Pass on " + shared + " (" + Math.max(1, Files.size(shared) / 1000) + " kB, all in one file)");
            }
        }
        if (open) {
            PageOpener.of(System.getProperty("os.name", ""))
                    .open(out.resolve(several ? "comparison.html" : "index.html"))
                    .ifPresent(why -> err.println("steadyshaft: --open: " + PlainText.of(why)));
        }
        boolean well = summaries.stream().allMatch(s -> s.usable() && !s.ranAway());
        return well && !fails && !faulty ? 0 : SOME_UNUSABLE;
    }

    /** Lets every capture's page lead to its neighbours in this batch; one that cannot be written keeps its links, and costs no other. */
    private void renewWays(List<StoredCapture> captures, boolean compared) {
        List<Ways> ways =
                Ways.of(captures.stream().map(c -> c.summary().folder()).toList(), compared);
        ReportWriter writer = new ReportWriter(out);
        for (int i = 0; i < captures.size(); i++) {
            try {
                writer.renew(captures.get(i), ways.get(i));
            } catch (IOException e) {
                String file = captures.get(i).summary().file();
                spec.commandLine()
                        .getErr()
                        .println(PlainText.of("steadyshaft: " + file + ": the links of its page cannot be renewed: "
                                + Reasons.of(e)));
            }
        }
    }

    private static boolean isOfSeveral(Comparison comparison) {
        return comparison.circuits().size() > 1;
    }

    /** What the work needs: the user's file, or the starting points. */
    private Needs needs() {
        if (limits == null) {
            return Needs.startingPoints();
        }
        try {
            return new Needs(LimitsReader.read(limits), true);
        } catch (IOException e) {
            throw new ParameterException(
                    spec.commandLine(), "--limits: " + PlainText.of(String.valueOf(e.getMessage())));
        }
    }

    private static Optional<Comparison> compare(List<StoredCapture> captures, Needs needs) {
        List<Run> runs = captures.stream().flatMap(c -> c.run().stream()).toList();
        return runs.isEmpty() ? Optional.empty() : Optional.of(new Comparer(needs.works(), needs.own()).compare(runs));
    }

    private static String where(Group group) {
        return String.format(
                Locale.ROOT,
                "%.0f rpm%s",
                group.meanRpm(),
                LoadWords.isLight(group.load()) ? "" : ", load " + group.load());
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
                        check.figure().map(WorkCheck.Figure::value).orElse(0.0),
                        check.measure().unit(),
                        check.group().map(AnalyseCommand::where).orElse("all speeds"),
                        check.most())));
            }
        }
    }

    private List<StoredCapture> captures(OutputFolder folder, List<CaptureJob> list, Needs needs) throws IOException {
        int processors = Runtime.getRuntime().availableProcessors();
        int threads = Math.max(1, Math.min(list.size(), jobs == null ? processors : jobs));
        try (Terminal progress = quiet ? Terminal.silent() : Terminal.progress("analyse", list.size())) {
            return new BatchRunner(folder, captureOptions.read(), needs, threads, fresh).run(list, progress::step);
        }
    }

    /** One clear line for an unusable capture, which names it once. */
    private static String line(CaptureSummary summary) {
        String text = summary.findings().get(0).text();
        boolean names = text.startsWith(summary.file() + ":") || text.contains("'" + summary.file() + "'");
        String named = names ? text : summary.file() + ": " + text;
        return "steadyshaft: " + PlainText.of(named);
    }
}
