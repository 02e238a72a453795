package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
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

/** Turns the inputs of a command line, which are files, folders and run sheets, into captures to analyse. */
final class JobList {
    /** Endings of files that people keep beside recordings; in a folder they are passed over. */
    private static final Set<String> NOT_RECORDINGS =
            Set.of("md", "html", "json", "pdf", "png", "jpg", "jpeg", "svg", "zip", "toml", "doc", "odt", "xls", "ods");

    private final CaptureOptions options;
    private final List<CaptureJob> jobs = new ArrayList<>();

    JobList(CaptureOptions options) {
        this.options = options;
    }

    List<CaptureJob> jobs() {
        return jobs;
    }

    void add(Path input) {
        if (Files.isDirectory(input)) {
            addFolder(input);
        } else if (Files.isRegularFile(input) && RunSheet.looksLikeOne(input)) {
            addSheet(input);
        } else {
            addFile(input, input.toString());
        }
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
        try {
            for (RunSheet.Row row : RunSheet.read(sheet).rows()) {
                jobs.add(new CaptureJob(
                        row.file(),
                        row.name(),
                        new CaptureLabel(row.circuit(), row.setting(), row.load(), row.note(), row.others()),
                        options.settings(row.polePairs(), row.mainsHz(), row.channel()),
                        row.problem()));
                named.add(row.file().toAbsolutePath().normalize());
            }
        } catch (CaptureException e) {
            addProblem(sheet, e.getMessage());
        }
        return named;
    }

    private void addFolder(Path folder) {
        try (Stream<Path> entries = Files.list(folder)) {
            List<Path> files = entries.filter(Files::isRegularFile)
                    .filter(f -> !f.getFileName().toString().startsWith("."))
                    .filter(f -> !NOT_RECORDINGS.contains(ending(f)) && !RunSheet.looksLikeResults(f))
                    .sorted()
                    .toList();
            Set<Path> done = new HashSet<>();
            for (Path file : files) {
                if (RunSheet.looksLikeOne(file)) {
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
                addProblem(folder, folder + ": the folder holds no recordings");
            }
        } catch (IOException e) {
            addProblem(folder, folder + ": the folder cannot be read: " + e.getMessage());
        }
    }

    private static String ending(Path file) {
        String name = file.getFileName().toString();
        return name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    }
}
