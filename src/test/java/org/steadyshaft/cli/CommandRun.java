package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** One run of the program as a user sees it: exit status and what was printed. */
record CommandRun(int status, String out, String err) {
    static CommandRun of(Object... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = Main.run(
                new PrintWriter(out),
                new PrintWriter(err),
                Stream.of(args).map(Object::toString).toArray(String[]::new));
        return new CommandRun(status, out.toString(), err.toString());
    }

    /** One line on err that begins with the program's name and holds these words; nothing a programmer would print. */
    void assertOneLine(String... words) {
        List<String> lines = err.lines().toList();
        assertEquals(1, lines.size(), err);
        assertClear(words);
    }

    /** Wrong usage: the reason, then where to look. */
    void assertWrongUsage(String... words) {
        assertEquals(2, status, err);
        assertEquals(2, err.lines().count(), err);
        assertTrue(err.lines().skip(1).findFirst().orElseThrow().startsWith("Try 'steadyshaft "), err);
        assertClear(words);
    }

    private void assertClear(String... words) {
        assertTrue(err.startsWith("steadyshaft: "), err);
        assertTrue(!err.contains("Exception") && !err.contains("\tat ") && !err.contains("a fault in this"), err);
        String line = err.lines().findFirst().orElseThrow();
        assertTrue(line.codePoints().noneMatch(Character::isISOControl), "control characters in: " + line);
        for (String word : words) {
            assertTrue(line.contains(word), err + "lacks: " + word);
        }
    }

    /** A steadily turning tacho of 8 pole pairs with a little noise. */
    static SampleSource tacho(double rpm, double seconds, long seed) {
        return new DrawnTacho(
                "drawn",
                DrawnSpeed.level(rpm).line(6.5, 0.4, 0.2),
                Settings.clean(8000, seconds).withNoise(0.003, seed));
    }

    static Path wav(Path file) throws IOException {
        Files.createDirectories(file.getParent());
        new WavWriter(16).write(tacho(900, 2, 5), file);
        return file;
    }

    static Path text(Path file) throws IOException {
        Files.createDirectories(file.getParent());
        new ScopeTextWriter(2).write(tacho(900, 2, 6), file);
        return file;
    }

    /** Every file below a folder with its digest, every folder with a slash. */
    static Map<String, String> tree(Path folder) throws IOException {
        Map<String, String> tree = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.toList()) {
                String name = folder.relativize(path).toString();
                if (Files.isDirectory(path)) {
                    tree.put(name + "/", "");
                } else {
                    tree.put(name, InputFiles.sha256(path));
                }
            }
        }
        return tree;
    }

    /** That a capture has its results and a speed, and that no half-written file is left anywhere. */
    static void assertReported(Path out, String folder) throws IOException {
        for (String file : List.of("result.json", "report.html", "track.csv", "events.csv")) {
            assertTrue(Files.size(out.resolve(folder).resolve(file)) > 0, folder + "/" + file);
        }
        String result = Files.readString(out.resolve(folder).resolve("result.json"));
        assertTrue(result.contains("\"meanRpm\""), result);
        assertWhole(out);
    }

    /** That a capture was refused: a page and a result that say so, and no speed. */
    static void assertRefused(Path out, String folder) throws IOException {
        String result = Files.readString(out.resolve(folder).resolve("result.json"));
        assertTrue(result.contains("\"unusable\"") && !result.contains("\"speed\""), result);
        assertTrue(Files.exists(out.resolve(folder).resolve("report.html")));
        assertTrue(Files.notExists(out.resolve(folder).resolve("track.csv")));
        assertWhole(out);
    }

    static void assertWhole(Path out) throws IOException {
        assertTrue(tree(out).keySet().stream().noneMatch(n -> n.endsWith(".part")), "half-written files are left");
        assertTrue(Files.exists(out.resolve("index.html")) && Files.exists(out.resolve("summary.csv")));
    }
}
