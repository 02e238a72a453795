package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What names no file is refused with what was probably meant, and nothing is written or touched. */
class WordsAreNoCapturesTest {
    @TempDir
    private Path folder;

    private Path good;
    private Path out;
    private Map<String, String> before;

    @BeforeEach
    void pages_of_before() throws IOException {
        good = CommandRun.wav(folder.resolve("wheel-1.wav"));
        out = folder.resolve("out");
        assertEquals(0, CommandRun.of("--out", out, good).status());
        before = CommandRun.tree(folder);
    }

    private void assertRefused(CommandRun run, String... words) throws IOException {
        run.assertWrongUsage(words);
        assertEquals("", run.out());
        assertEquals(before, CommandRun.tree(folder), "something was written or taken away");
    }

    @ParameterizedTest
    @CsvSource({
        "help, --help",
        "analyze, analyse",
        "Analyse, analyse",
        "inspct, inspect",
        "simulates, simulate",
        "versio, --version"
    })
    void a_word_that_is_no_command(String word, String meant) throws IOException {
        assertRefused(CommandRun.of(word, "--out", out), "no command and no file '" + word + "'", "'" + meant + "'");
        assertRefused(CommandRun.of(word, good, "--out", out), "'" + word + "'", "'" + meant + "'");
        assertRefused(CommandRun.of("analyse", good, word, "--out", out), "'" + word + "'");
    }

    @Test
    void a_word_that_is_like_none() throws IOException {
        CommandRun run = CommandRun.of("potteries", "--out", out);
        assertRefused(run, "no command and no file 'potteries'");
        assertTrue(!run.err().contains("did you mean"), run.err());
    }

    @Test
    void a_mistyped_file() throws IOException {
        Path mistyped = folder.resolve("wheel_1.wav");
        assertRefused(
                CommandRun.of("--out", out, mistyped),
                mistyped + ": there is no such file; did you mean '" + good + "'?");
        assertRefused(CommandRun.of("inspect", mistyped), "did you mean 'wheel-1.wav'?");
    }

    @Test
    void a_run_sheet_that_is_not_there() throws IOException {
        assertRefused(CommandRun.of("--out", out, folder.resolve("run-sheet.csv")), "there is no such file");
    }

    @Test
    void an_empty_folder_alone() throws IOException {
        Path empty = Files.createDirectory(folder.resolve("empty"));
        before = CommandRun.tree(folder);
        assertRefused(CommandRun.of("--out", out, empty), "holds no recordings");
    }

    /** One input that is there, and the batch goes on past the others. */
    @Test
    void a_missing_file_beside_one_that_is_there() throws IOException {
        CommandRun run = CommandRun.of("--out", folder.resolve("other"), folder.resolve("wheel_1.wav"), good);
        assertEquals(1, run.status());
        run.assertOneLine("there is no such file", "did you mean");
        CommandRun.assertReported(folder.resolve("other"), "wheel-1");
    }

    @ParameterizedTest
    @CsvSource({"--otu, --out", "--pole-pair, --pole-pairs", "--fersh, --fresh"})
    void a_mistyped_option(String option, String meant) throws IOException {
        assertRefused(CommandRun.of("--out", out, option + "=1", good), option, "did you mean " + meant);
    }

    @Test
    void a_mistyped_scenario() throws IOException {
        assertRefused(
                CommandRun.of("simulate", "--out", out, "bench-refire"),
                "'bench-refire'",
                "did you mean 'bench-refires'?");
    }

    /** A sheet's missing file is told with sheet, line, column and what was probably meant, and named once. */
    @Test
    void a_missing_file_of_a_sheet() throws IOException {
        Path sheet = Files.writeString(folder.resolve("runs.csv"), "file,circuit\nwheel_1.wav,rc\nwheel-1.wav,rc\n");

        CommandRun run = CommandRun.of("--out", folder.resolve("other"), sheet);

        assertEquals(1, run.status());
        assertEquals(
                List.of("steadyshaft: " + sheet
                        + ":2: column file: found 'wheel_1.wav': there is no such file; did you mean 'wheel-1.wav'?"),
                run.err().lines().toList());
    }

    @Test
    void a_sheet_with_backslashes_finds_its_files() throws IOException {
        CommandRun.wav(folder.resolve("deep/a.wav"));
        Path sheet = Files.writeString(folder.resolve("runs.csv"), "file\ndeep\\a.wav\n");
        CommandRun run = CommandRun.of("--out", folder.resolve("other"), sheet);
        assertEquals(0, run.status(), run.err());
        CommandRun.assertReported(folder.resolve("other"), "a");
    }
}
