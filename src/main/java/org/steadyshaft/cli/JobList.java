package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.capture.CaptureException;
import org.steadyshaft.capture.RunSheet;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.file.NearNames;
import org.steadyshaft.file.Reasons;

/** Turns the inputs of a command line, which are files, folders and run sheets, into captures to analyse. */
final class JobList {
    /** Endings of files that people keep beside recordings; in a folder they are passed over. */
    private static final Set<String> NOT_RECORDINGS =
            Set.of("md", "html", "json", "pdf", "png", "jpg", "jpeg", "svg", "zip", "toml", "doc", "odt", "xls", "ods");

    private final CaptureOptions options;
    private final List<CaptureJob> jobs = new ArrayList<>();
    private final Set<Path> sheets = new LinkedHashSet<>();
    private final List<String> nothing = new ArrayList<>();

    JobList(CaptureOptions options) {
        this.options = options;
    }

    List<CaptureJob> jobs() {
        return jobs;
    }

    /** Everything that is read: recordings and run sheets. */
    List<Path> read() {
        List<Path> read = new ArrayList<>(sheets);
        jobs.forEach(job -> read.add(job.file()));
        return read;
    }

    /** Why there is nothing to analyse at all, from the first input; empty if one of the inputs exists and holds something. */
    Optional<String> nothing() {
        return nothing.size() == jobs.size() && !nothing.isEmpty() ? Optional.of(nothing.get(0)) : Optional.empty();
    }

    void add(Path input) {
        if (!Files.exists(input)) {
            addNothing(input, input + ": there is no such file" + near(input));
        } else if (Files.isDirectory(input)) {
            addFolder(input);
        } else if (isSheet(input)) {
            addSheet(input);
        } else {
            addFile(input, input.toString());
        }
    }

    private static String near(Path input) {
        return NearNames.file(input)
                .map(name ->
                        "; did you mean '" + (input.getParent() == null ? name : input.resolveSibling(name)) + "'?")
                .orElse("");
    }

    private void addNothing(Path input, String problem) {
        nothing.add(problem);
        addProblem(input, problem);
    }

    private void addFile(Path file, String name) {
        jobs.add(new CaptureJob(
                file,
                name,
                CaptureLabel.NONE,
                options.settings(OptionalInt.empty(), OptionalDouble.empty(), ""),
                Optional.empty()));
    }

    private void addProblem(Path file, String problem) {
        jobs.add(new CaptureJob(
                file,
                file.toString(),
                CaptureLabel.NONE,
                options.settings(OptionalInt.empty(), OptionalDouble.empty(), ""),
                Optional.of(problem)));
    }

    /** The captures of a sheet; the absolute paths of those it names. */
    private Set<Path> addSheet(Path sheet) {
        Set<Path> named = new HashSet<>();
        sheets.add(sheet);
        try {
            for (RunSheet.Row row : RunSheet.read(sheet).rows()) {
                jobs.add(new CaptureJob(
                        row.file(),
                        row.name(),
                        new CaptureLabel(row.circuit(), row.setting(), row.load(), row.note(), row.others()),
                        options.settings(row.polePairs(), row.mainsHz(), row.channel()),
                        row.problem().or(() -> missing(row))));
                named.add(row.file().toAbsolutePath().normalize());
            }
        } catch (CaptureException e) {
            addProblem(sheet, e.getMessage());
        }
        return named;
    }

    private static Optional<String> missing(RunSheet.Row row) {
        return InputFiles.missing(row.file())
                .map(problem -> row.where() + ": column file: found '" + row.name() + "': " + problem);
    }

    private void addFolder(Path folder) {
        try (Stream<Path> entries = Files.list(folder)) {
            List<Path> files = entries.filter(f -> !Files.isDirectory(f))
                    .filter(f -> !f.getFileName().toString().startsWith("."))
                    .filter(f -> !NOT_RECORDINGS.contains(ending(f)) && !isResults(f))
                    .sorted()
                    .toList();
            Set<Path> done = new HashSet<>();
            for (Path file : files) {
                if (isSheet(file)) {
                    done.add(file);
                    addSheet(file).forEach(done::add);
                }
            }
            for (Path file : files) {
                if (!done.contains(file) && !done.contains(file.toAbsolutePath().normalize())) {
                    addFile(file, file.getFileName().toString());
                }
            }
            if (files.isEmpty()) {
                addNothing(folder, folder + ": the folder holds no recordings");
            }
        } catch (IOException e) {
            addProblem(folder, folder + ": the folder cannot be read: " + Reasons.of(e));
        }
    }

    private static boolean isSheet(Path file) {
        return InputFiles.problem(file, "").isEmpty() && RunSheet.looksLikeOne(file);
    }

    private static boolean isResults(Path file) {
        return InputFiles.problem(file, "").isEmpty() && RunSheet.looksLikeResults(file);
    }

    private static String ending(Path file) {
        String name = file.getFileName().toString();
        return name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    }
}
