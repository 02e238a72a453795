package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.Pipe;

/** Nothing of the user's is overwritten, removed or waited for. */
class NothingIsLostTest {
    @TempDir
    private Path folder;

    private Path good;
    private Path out;

    @BeforeEach
    void places() throws IOException {
        good = CommandRun.wav(folder.resolve("in/good.wav"));
        out = Files.createDirectory(folder.resolve("out"));
    }

    private static Path mine(Path file) throws IOException {
        Files.createDirectories(file.getParent());
        return Files.writeString(file, "mine");
    }

    @ParameterizedTest
    @ValueSource(strings = {"index.html", "summary.csv", "comparison.html", "comparison.json", "comparison.csv"})
    void a_file_of_mine_in_a_batch_files_place_stops_the_run(String name) throws IOException {
        mine(out.resolve(name));
        Map<String, String> before = CommandRun.tree(folder);

        CommandRun.of("--out", out, good).assertWrongUsage("--out", name, "was not written by this program");

        assertEquals(before, CommandRun.tree(folder));
    }

    @ParameterizedTest
    @ValueSource(strings = {"result.json", "report.html", "track.csv", "events.csv", "measures.json", "fault.txt"})
    void a_file_of_mine_in_a_captures_place_gives_it_another_folder(String name) throws IOException {
        Path mine = mine(out.resolve("good").resolve(name));

        CommandRun run = CommandRun.of("--out", out, good);

        assertEquals(0, run.status(), run.err());
        assertEquals("mine", Files.readString(mine));
        assertEquals(Set.of("/", name), CommandRun.tree(out.resolve("good")).keySet());
        CommandRun.assertReported(out, "good-2");
    }

    /** A capture that cannot be read takes nothing away either. */
    @Test
    void a_refused_capture_removes_nothing_of_mine() throws IOException {
        Path empty = Files.createFile(folder.resolve("in/empty.wav"));
        Path mine = mine(out.resolve("empty/track.csv"));

        assertEquals(1, CommandRun.of("--out", out, empty).status());

        assertEquals("mine", Files.readString(mine));
        CommandRun.assertRefused(out, "empty-2");
    }

    @Test
    void links_are_neither_followed_nor_replaced() throws IOException {
        Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
        Path mine = mine(folder.resolve("mine.html"));
        Files.createSymbolicLink(out.resolve("good"), elsewhere);
        Files.createDirectory(out.resolve("good-2"));
        Files.createSymbolicLink(out.resolve("good-2/report.html"), mine);

        CommandRun run = CommandRun.of("--out", out, good);

        assertEquals(0, run.status(), run.err());
        assertEquals(Set.of("/"), CommandRun.tree(elsewhere).keySet());
        assertEquals("mine", Files.readString(mine));
        assertTrue(Files.isSymbolicLink(out.resolve("good-2/report.html")));
        CommandRun.assertReported(out, "good-3");
    }

    @Test
    void a_run_sheet_called_like_a_result_is_kept() throws IOException {
        String rows = "file,circuit\ngood.wav,rc\n";
        Path sheet = Files.writeString(folder.resolve("in/summary.csv"), rows);

        CommandRun.of("--out", folder.resolve("in"), sheet).assertWrongUsage("summary.csv", "one of the inputs");
        Path link = Files.createSymbolicLink(folder.resolve("way"), folder.resolve("in"));
        CommandRun.of("--out", link, sheet).assertWrongUsage("summary.csv", "one of the inputs");

        assertEquals(rows, Files.readString(sheet));
    }

    @Test
    void a_limits_file_called_like_a_result_is_kept() throws IOException {
        String limits = "[work]\nspeed_rpm = [1, 20000]\nripple_percent = 5\n";
        Path file = Files.writeString(out.resolve("summary.csv"), limits);
        CommandRun.of("--out", out, "--limits", file, good).assertWrongUsage("summary.csv");
        assertEquals(limits, Files.readString(file));
    }

    /** Results into the folder of the recordings, by a link, with files of mine in it. */
    @Test
    void out_that_is_linked_to_the_inputs_loses_none() throws IOException {
        Path link = Files.createSymbolicLink(folder.resolve("way"), folder.resolve("in"));
        CommandRun.wav(folder.resolve("in/deep/track.csv"));
        Map<String, String> before = CommandRun.tree(folder.resolve("in"));

        CommandRun run = CommandRun.of("--out", link, folder.resolve("in"), folder.resolve("in/deep/track.csv"));

        assertEquals(0, run.status(), run.err());
        Map<String, String> after = CommandRun.tree(folder.resolve("in"));
        before.forEach((name, digest) -> assertEquals(digest, after.get(name), name));
        CommandRun.assertReported(folder.resolve("in"), "track");
    }

    @Test
    void simulate_keeps_what_it_did_not_make() throws IOException {
        Path sheet = Files.writeString(out.resolve("run-sheet.csv"), "file,circuit\nmine.wav,rc\n");
        CommandRun.of("simulate", "bench-refires", "--minutes", "0.05", "--out", out)
                .assertWrongUsage("run-sheet.csv", "was not written by this program");
        Files.delete(sheet);
        Path wav = mine(out.resolve("bench-refires.wav"));
        CommandRun.of("simulate", "bench-refires", "--minutes", "0.05", "--out", out)
                .assertWrongUsage("bench-refires.wav", "was not written by this program");
        assertEquals("mine", Files.readString(wav));
        Files.delete(wav);
        for (int time = 0; time < 2; time++) {
            CommandRun run = CommandRun.of("simulate", "bench-refires", "--minutes", "0.05", "--out", out);
            assertEquals(0, run.status(), run.err());
        }
    }

    @Test
    void two_runs_do_not_write_into_one_folder() throws IOException {
        try (OutputFolder other = OutputFolder.claim(out, List.of(), List.of())) {
            Map<String, String> before = CommandRun.tree(folder);
            CommandRun.of("--out", other.path(), good).assertWrongUsage("another run is writing into");
            CommandRun.of("simulate", "bench-refires", "--minutes", "0.05", "--out", out)
                    .assertWrongUsage("another run is writing into");
            assertEquals(before, CommandRun.tree(folder));
        }
        assertEquals(0, CommandRun.of("--out", out, good).status());
    }

    /** A pipe that nobody writes to: opened, it would hold the batch for ever. */
    @Test
    @Timeout(value = 120, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_pipe_is_refused_everywhere() throws IOException, InterruptedException {
        Path pipe = folder.resolve("in/pipe.wav");
        assumeTrue(Pipe.made(pipe), "no mkfifo here");
        Path sheet = Files.writeString(folder.resolve("in/runs.csv"), "file\npipe.wav\ngood.wav\n");

        for (List<Object> inputs : List.<List<Object>>of(List.of("--fresh", pipe, good), List.of("--fresh", sheet))) {
            CommandRun run = CommandRun.of(
                    Stream.concat(Stream.of("--out", out), inputs.stream()).toArray());
            assertEquals(1, run.status());
            run.assertOneLine("pipe.wav", "is a device, a pipe or a socket; expected a recording");
            CommandRun.assertReported(out, "good");
        }
        CommandRun.of("inspect", pipe, good).assertOneLine("is a device, a pipe or a socket");
        CommandRun.of("--out", out, "--limits", pipe, good).assertWrongUsage("--limits", "is a device, a pipe");
        Path toml = folder.resolve("pipe.toml");
        assertTrue(Pipe.made(toml));
        CommandRun.of("simulate", toml, "--out", out).assertWrongUsage("is a device, a pipe or a socket");
    }

    /** Cells and names that would act on a terminal, in a page or in a spreadsheet. */
    @Test
    void words_of_others_do_nothing_anywhere() throws IOException {
        Path sheet = Files.writeString(
                folder.resolve("in/runs.csv"),
                "file,circuit,setting,note,=head\n"
                        + "good.wav,=1+1,-5,\"a\u202Eb\u001B[2J\u2028c\uFFFFd\",@x\n"
                        + "good.wav,<script>alert(1)</script>,x,,+y z\n");

        CommandRun run = CommandRun.of("--out", out, sheet);

        assertEquals(0, run.status(), run.err());
        StringBuilder all = new StringBuilder(run.out() + run.err());
        for (Path file : List.of(
                out.resolve("index.html"),
                out.resolve("summary.csv"),
                out.resolve("comparison.html"),
                out.resolve("comparison.json"),
                out.resolve("comparison.csv"),
                out.resolve("good/report.html"),
                out.resolve("good/result.json"))) {
            all.append(Files.readString(file));
        }
        for (String acting : List.of("\u202E", "\u001B", "\u2028", "\uFFFF", "<script>alert")) {
            assertTrue(all.indexOf(acting) < 0 || acting.startsWith("<") && !inPages(acting), acting);
        }
        String summary = Files.readString(out.resolve("summary.csv"));
        assertTrue(summary.contains(",'=1+1,-5,"), summary);
        assertTrue(summary.contains(",'=head\n"), summary);
        assertTrue(summary.contains(",'@x\n") && summary.contains(",'+y z\n"), summary);
    }

    private boolean inPages(String text) throws IOException {
        for (String page : List.of("index.html", "comparison.html", "good/report.html")) {
            if (Files.readString(out.resolve(page)).contains(text)) {
                return true;
            }
        }
        return false;
    }

    /** Packed text that is made to fill a disk, and packed text that is damaged. */
    @Test
    void a_packed_bomb_and_damaged_packing_are_told_in_words() throws IOException {
        Path bomb = folder.resolve("in/bomb.csv.gz");
        byte[] line = "0.00001,0.5\n".repeat(10_000).getBytes(StandardCharsets.US_ASCII);
        try (var zip = new GZIPOutputStream(Files.newOutputStream(bomb))) {
            for (int i = 0; i < 700; i++) {
                zip.write(line);
            }
        }
        byte[] whole = Files.readAllBytes(bomb);
        Path cut = Files.write(folder.resolve("in/cut.csv.gz"), Arrays.copyOf(whole, whole.length / 2));
        CommandRun run = CommandRun.of("--out", out, bomb, good);
        assertEquals(1, run.status());
        run.assertOneLine("bomb.csv.gz", "unpack to more than", "unpack it first");
        run = CommandRun.of("inspect", cut);
        assertEquals(1, run.status());
        run.assertOneLine("cut.csv.gz", "it ends too early");
    }
}
