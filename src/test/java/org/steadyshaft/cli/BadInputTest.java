package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What users give by mistake: a clear line, the rest of the batch done, nothing written elsewhere. */
class BadInputTest {
    @TempDir
    private Path folder;

    private Path in;
    private Path out;

    @BeforeEach
    void places() throws IOException {
        in = Files.createDirectory(folder.resolve("in"));
        out = folder.resolve("out");
    }

    private byte[] wavBytes() throws IOException {
        Path file = CommandRun.wav(folder.resolve("whole"));
        byte[] bytes = Files.readAllBytes(file);
        Files.delete(file);
        return bytes;
    }

    /** Runs a bad input before a good one; gives what was printed after the usual checks. */
    private CommandRun besideGood(Path bad) throws IOException {
        Path good = CommandRun.wav(in.resolve("good.wav"));
        Map<String, String> before = withoutOut();
        CommandRun run = CommandRun.of("--out", out, bad, good);
        assertEquals(before, withoutOut(), "something was written outside --out");
        CommandRun.assertReported(out, "good");
        assertTrue(Files.readString(out.resolve("summary.csv")).contains("\ngood,"));
        return run;
    }

    private Map<String, String> withoutOut() throws IOException {
        Map<String, String> tree = new TreeMap<>(CommandRun.tree(folder));
        tree.keySet().removeIf(n -> n.startsWith("out/"));
        return tree;
    }

    private void assertRefusedBesideGood(Path bad, String... words) throws IOException {
        CommandRun run = besideGood(bad);
        run.assertOneLine(words);
        assertEquals(1, run.status());
        CommandRun.assertRefused(out, "bad");
    }

    @Test
    void an_empty_file() throws IOException {
        Path bad = Files.createFile(in.resolve("bad.wav"));
        assertRefusedBesideGood(bad, "bad.wav", "is empty", "expected a recording");
    }

    @Test
    void text_called_wav() throws IOException {
        Path bad = Files.writeString(in.resolve("bad.wav"), "Please find the recording attached.\nRegards\n");
        assertRefusedBesideGood(bad, "bad.wav:1", "no rows of numbers", "Please find");
    }

    @Test
    void text_without_numbers() throws IOException {
        Path bad = Files.writeString(in.resolve("bad.csv"), "Time,Tacho\nno,numbers\n".repeat(500));
        assertRefusedBesideGood(bad, "bad.csv:1", "no rows of numbers", "expected a table of voltages");
    }

    @Test
    void a_scope_export_called_wav_is_read_all_the_same() throws IOException {
        CommandRun run = besideGood(CommandRun.text(in.resolve("scope.wav")));

        assertEquals("", run.err());
        assertEquals(0, run.status());
        CommandRun.assertReported(out, "scope");
    }

    @Test
    void a_wav_cut_within_its_header() throws IOException {
        Path bad = Files.write(in.resolve("bad.wav"), Arrays.copyOf(wavBytes(), 30));
        assertRefusedBesideGood(bad, "bad.wav", "the file ends inside", "expected 16 bytes");
    }

    @Test
    void a_wav_cut_just_before_its_samples() throws IOException {
        Path bad = Files.write(in.resolve("bad.wav"), Arrays.copyOf(wavBytes(), 44));
        assertRefusedBesideGood(bad, "bad.wav", "no samples");
    }

    /** What is there is used, and the report says that the end is missing. */
    @Test
    void a_wav_cut_within_its_samples() throws IOException {
        Path cut = Files.write(in.resolve("cut.wav"), Arrays.copyOf(wavBytes(), 24_001));
        besideGood(cut);

        CommandRun.assertReported(out, "cut");
        String result = Files.readString(out.resolve("cut/result.json"));
        assertTrue(result.contains("its end is missing") && result.contains("doubtful"), result);
        assertTrue(Files.readString(out.resolve("cut/report.html")).contains("its end is missing"));
    }

    @Test
    void a_header_that_claims_three_gigabytes() throws IOException {
        byte[] bytes = wavBytes();
        ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).putInt(40, (int) 3_000_000_000L);
        besideGood(Files.write(in.resolve("huge.wav"), bytes));

        CommandRun.assertReported(out, "huge");
        assertTrue(Files.readString(out.resolve("huge/result.json")).contains("promises 3000000000 bytes"));
    }

    @Test
    void a_missing_file() throws IOException {
        assertRefusedBesideGood(in.resolve("bad.wav"), "bad.wav", "there is no such file");
    }

    @Test
    void an_empty_folder() throws IOException {
        assertRefusedBesideGood(Files.createDirectory(in.resolve("bad")), "bad", "holds no recordings");
    }

    @Test
    void a_folder_is_read_with_what_it_holds() throws IOException {
        CommandRun.wav(in.resolve("many/a.wav"));
        Files.createFile(in.resolve("many/b.wav"));
        Files.writeString(in.resolve("many/notes.md"), "notes");
        Files.createDirectory(in.resolve("many/deeper"));
        CommandRun run = besideGood(in.resolve("many"));

        assertEquals(1, run.status());
        run.assertOneLine("b.wav", "is empty");
        CommandRun.assertReported(out, "a");
        CommandRun.assertRefused(out, "b");
        assertTrue(Files.notExists(out.resolve("notes")));
    }

    @Test
    void a_run_sheet_that_names_a_missing_file() throws IOException {
        CommandRun.wav(in.resolve("here.wav"));
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,circuit\nbad.wav,one\nhere.wav,two\n");
        assertRefusedBesideGood(sheet, "bad.wav", "there is no such file");
        CommandRun.assertReported(out, "here");
    }

    @Test
    void a_run_sheet_that_names_a_folder() throws IOException {
        Files.createDirectory(in.resolve("bad"));
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,circuit\nbad,one\n");
        assertRefusedBesideGood(sheet, "bad", "is a folder", "expected a recording");
    }

    @Test
    void a_run_sheet_with_a_bad_cell() throws IOException {
        CommandRun.wav(in.resolve("bad.wav"));
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,pole_pairs\nbad.wav,eight\n");
        assertRefusedBesideGood(sheet, "bad.wav", "runs.csv:2: column pole_pairs: found 'eight'; expected");
    }

    @Test
    void a_run_sheet_that_names_nothing() throws IOException {
        Path sheet = Files.writeString(in.resolve("bad.csv"), "file,circuit\n,one\n");
        assertRefusedBesideGood(sheet, "bad.csv", "names no file");
    }

    @Test
    void a_channel_that_is_not_there() throws IOException {
        CommandRun.wav(in.resolve("bad.wav"));
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,channel\nbad.wav,7\n");
        assertRefusedBesideGood(sheet, "bad.wav", "channel", "7");
    }

    /** A scope export whose first line is "File,..." is no run sheet. */
    @Test
    void a_scope_export_that_begins_with_its_own_name() throws IOException {
        Path scope = CommandRun.text(in.resolve("scope.csv"));
        String first = String.join("\n", Files.readAllLines(scope).subList(0, 4001));
        Files.writeString(scope, "File,run 7\nModel,nameless\n" + first);
        CommandRun run = besideGood(scope);

        assertEquals("", run.err());
        CommandRun.assertReported(out, "scope");
    }

    /** A capture without an ending whose name is a word of the message is still named. */
    @Test
    void the_line_names_a_file_that_is_called_like_a_word() throws IOException {
        Path bad = in.resolve("a");
        Path sheet = Files.writeString(in.resolve("runs.csv"), "file,pole_pairs\n" + bad.getFileName() + ",x\n");
        besideGood(sheet).assertOneLine("steadyshaft: a: ", "column pole_pairs");
    }

    @Test
    void out_that_is_a_file() throws IOException {
        Path good = CommandRun.wav(in.resolve("good.wav"));
        Files.writeString(out, "mine");
        Map<String, String> before = CommandRun.tree(folder);

        CommandRun run = CommandRun.of("--out", out, good);

        run.assertOneLine("results cannot be written below " + out);
        assertEquals(1, run.status());
        assertEquals(before, CommandRun.tree(folder));
    }

    /** A capture whose name in the output folder is taken by something else gets another. */
    @Test
    void a_capture_whose_place_is_taken() throws IOException {
        Files.createDirectories(out);
        Files.writeString(out.resolve("bad"), "mine");
        CommandRun run = besideGood(CommandRun.wav(in.resolve("bad.wav")));

        assertEquals(0, run.status(), run.err());
        CommandRun.assertReported(out, "bad-2");
        assertEquals("mine", Files.readString(out.resolve("bad")));
    }

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource({
        "--pole-pairs, 0, '--pole-pairs: found 0; expected 1 to 999'",
        "--pole-pairs, 1000, '--pole-pairs: found 1000; expected 1 to 999'",
        "--pole-pairs, 8.5, --pole-pairs",
        "--pole-pairs, eight, --pole-pairs",
        "--mains-hz, 55, '--mains-hz: found 55.0; expected 50 or 60'",
        "--mains-hz, NaN, --mains-hz",
        "--mains-hz, fifty, --mains-hz",
        "--sample-rate, 0, --sample-rate",
        "--sample-rate, -8000, --sample-rate",
        "--sample-rate, NaN, --sample-rate",
        "--sample-rate, Infinity, --sample-rate",
        "--sample-rate, 8k, --sample-rate",
        "--jobs, 0, '--jobs: found 0; expected 1 to 256'",
        "--jobs, 257, --jobs",
        "--jobs, many, --jobs"
    })
    void a_bad_value_of_an_option(String option, String value, String words) throws IOException {
        Path good = CommandRun.wav(in.resolve("good.wav"));
        Map<String, String> before = CommandRun.tree(folder);

        CommandRun run = CommandRun.of("--out", out, option + "=" + value, good);

        run.assertWrongUsage(words);
        assertEquals(before, CommandRun.tree(folder));
    }

    /** Cleans up after a program that takes the empty name for the current folder. */
    @Test
    void out_that_is_empty() throws IOException {
        String name = "empty-out-test";
        try {
            CommandRun.of("--out", "", in.resolve(name + ".wav")).assertWrongUsage("--out");
        } finally {
            for (String file :
                    List.of(name + "/result.json", name + "/report.html", name, "summary.csv", "index.html")) {
                Files.deleteIfExists(Path.of(file));
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"--nonsense", "-x", "--pole-pair=8", "--limits"})
    void an_unknown_option(String option) throws IOException {
        Path good = CommandRun.wav(in.resolve("good.wav"));

        CommandRun.of("--out", out, option, good).assertWrongUsage(option.replaceAll("=.*", ""));
        assertTrue(Files.notExists(out));
    }

    @Test
    void an_input_that_begins_with_an_at_sign_is_a_file_like_others() throws IOException {
        Path list = Files.writeString(in.resolve("list.txt"), "--jobs 0\n");
        CommandRun run = CommandRun.of("--out", out, "@" + list);

        run.assertWrongUsage("there is no such file");
        assertTrue(Files.notExists(out));
    }

    @Test
    void inspect_goes_on_past_a_bad_file_and_writes_nothing() throws IOException {
        Path bad = Files.createFile(in.resolve("bad.wav"));
        Path good = CommandRun.wav(in.resolve("good.wav"));
        Map<String, String> before = CommandRun.tree(folder);

        CommandRun run = CommandRun.of("inspect", bad, good, in);

        assertEquals(1, run.status());
        assertTrue(run.err().contains("bad.wav: is empty"), run.err());
        assertTrue(run.err().contains("is a folder"), run.err());
        assertTrue(run.out().contains("grade"), run.out());
        assertEquals(before, CommandRun.tree(folder));
    }
}
