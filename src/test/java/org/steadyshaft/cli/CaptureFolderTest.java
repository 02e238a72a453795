package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every capture gets a folder of its own inside --out, whatever its name, and nothing else is touched. */
class CaptureFolderTest {
    @TempDir
    private Path folder;

    private Path in;
    private Path out;

    @BeforeEach
    void places() throws IOException {
        in = Files.createDirectories(folder.resolve("deep/er/in"));
        out = folder.resolve("deep/er/out");
    }

    private Set<String> folders() throws IOException {
        Set<String> names = new TreeSet<>();
        try (Stream<Path> entries = Files.list(out)) {
            entries.filter(Files::isDirectory)
                    .forEach(f -> names.add(f.getFileName().toString()));
        }
        return names;
    }

    /** Runs the inputs; checks that each has a folder with results and that nothing else was touched. */
    private Set<String> run(int captures, Object... inputs) throws IOException {
        Map<String, String> before = elsewhere();
        List<Object> args = new ArrayList<>(List.of("--out", out));
        args.addAll(List.of(inputs));
        CommandRun run = CommandRun.of(args.toArray());
        assertEquals(before, elsewhere(), "something was written outside --out");
        CommandRun.assertWhole(out);
        Set<String> folders = folders();
        assertEquals(captures, folders.size(), folders + "\n" + run.err());
        for (String name : folders) {
            assertTrue(Files.exists(out.resolve(name).resolve("result.json")), name);
            assertTrue(Files.exists(out.resolve(name).resolve("report.html")), name);
            assertTrue(name.matches("[\\p{L}\\p{N}_-][\\p{L}\\p{N}._-]*"), name);
        }
        assertFalse(run.err().contains("Exception"), run.err());
        return folders;
    }

    private Map<String, String> elsewhere() throws IOException {
        Map<String, String> tree = new TreeMap<>(CommandRun.tree(folder));
        tree.keySet().removeIf(n -> n.startsWith("deep/er/out/"));
        return tree;
    }

    @Test
    void a_path_upward_stays_inside() throws IOException {
        Path evil = CommandRun.wav(folder.resolve("deep/evil.wav"));
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,circuit\n../../evil.wav,one\n");

        assertEquals(Set.of("evil"), run(1, sheet));
        assertEquals(Set.of("evil"), run(1, out.resolve("../../evil.wav")));
        assertTrue(Files.exists(evil));
    }

    /** Names that a sheet may hold; the files need not be there. */
    @ParameterizedTest(name = "[{0}]")
    @ValueSource(
            strings = {
                "../../evil.wav",
                "..\\..\\evil.wav",
                "..",
                ".",
                "/",
                "...",
                "..wav",
                ".hidden.wav",
                "index.html.wav",
                "index.html",
                "summary.csv",
                "SUMMARY.CSV.wav",
                "comparison.json.wav",
                "<script>x.wav",
                "a b & \u00FC.wav",
                "nul\u0000.wav",
                "bell\u0007.wav",
                "~",
                "$HOME.wav",
                "-rf.wav",
                "file:///etc/x.wav",
                "C:x.wav",
                "\uD835\uDC9C.wav",
                "\uD83D\uDE00.wav"
            })
    void any_name_stays_inside(String name) throws IOException {
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file\n\"" + name + "\"\n");
        run(1, sheet);
    }

    @ParameterizedTest
    @ValueSource(ints = {78, 79, 80, 81, 300})
    void a_long_name_is_cut_between_characters(int letters) throws IOException {
        String name = "x".repeat(letters) + "\uD835\uDC9C\uD835\uDC9C.wav";
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file\n" + name + "\n" + name + "\n");
        run(2, sheet);
    }

    @Test
    void names_of_the_batch_pages_are_not_taken() throws IOException {
        for (String name : List.of("index.html.wav", "summary.csv.wav", "comparison.html.wav", "comparison.json.wav")) {
            CommandRun.wav(in.resolve(name));
        }
        run(4, in);
        assertTrue(Files.isRegularFile(out.resolve("index.html")));
        assertTrue(Files.isRegularFile(out.resolve("summary.csv")));
    }

    @Test
    void a_name_with_a_tag_is_escaped_in_every_page() throws IOException {
        Path tag = CommandRun.wav(in.resolve("<script>x.wav"));
        Set<String> folders = run(1, tag);

        for (Path page : List.of(
                out.resolve("index.html"),
                out.resolve(folders.iterator().next()).resolve("report.html"))) {
            assertFalse(Files.readString(page).contains("<script>x"), page.toString());
        }
    }

    @Test
    void a_name_of_several_lines_keeps_one_line_a_message() throws IOException {
        CommandRun run = CommandRun.of("--out", out, in.resolve("two\nlines\u001B[2J.wav"));
        run.assertWrongUsage("there is no such file");
    }

    @Test
    void a_hidden_file_is_analysed_when_it_is_named() throws IOException {
        Path hidden = CommandRun.wav(in.resolve(".hidden.wav"));

        Set<String> folders = run(1, hidden);

        assertTrue(folders.iterator().next().contains("hidden"), folders.toString());
        CommandRun.assertReported(out, folders.iterator().next());
    }

    @Test
    void files_of_the_same_name_do_not_meet() throws IOException {
        Path one = CommandRun.wav(in.resolve("one/run.wav"));
        Path two = CommandRun.text(in.resolve("two/run.wav"));
        Path three = Files.createFile(in.resolve("RUN.wav"));
        Path four = CommandRun.text(in.resolve("run-2.csv"));

        Set<String> folders = run(4, one, two, three, four);

        assertEquals(4, folders.stream().map(String::toLowerCase).distinct().count());
        CommandRun.assertReported(out, "run");
        CommandRun.assertReported(out, "run-2");
    }

    /** Results beside the recordings: a second run takes none of them for a recording or a run sheet. */
    @Test
    void results_in_the_folder_of_the_recordings_are_not_read_again() throws IOException {
        CommandRun.wav(in.resolve("good.wav"));
        out = in;
        assertEquals(0, CommandRun.of("--out", in, in).status());
        Map<String, String> first = CommandRun.tree(in);

        CommandRun again = CommandRun.of("--out", in, in);

        assertEquals(0, again.status(), again.err());
        assertEquals(first, CommandRun.tree(in));
    }

    @ParameterizedTest
    @ValueSource(strings = {"summary.csv", "other/track.csv"})
    void a_recording_is_never_overwritten(String name) throws IOException {
        Path mine = CommandRun.text(in.resolve(name));
        Path other = CommandRun.wav(in.resolve("other.wav"));
        byte[] before = Files.readAllBytes(mine);

        CommandRun run = CommandRun.of("--out", in, mine, other);

        assertEquals(before.length, Files.size(mine), run.out());
        assertEquals(-1, Arrays.mismatch(before, Files.readAllBytes(mine)));
    }
}
