package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.file.Digests;

/**
 * A second run into the same folder analyses only what is new or changed, and leaves the same bytes as a run from scratch. What was
 * analysed anew is seen by the time of result.json: all times are set back before.
 */
class SecondRunTest {
    private static final FileTime LONG_AGO = FileTime.fromMillis(1_000_000_000_000L);

    @TempDir
    private Path folder;

    private Path in;
    private Path out;
    private Path sheet;

    /** Inputs and results of a first run, made once and copied for each test. */
    @TempDir
    private static Path first;

    @BeforeAll
    static void first_run() throws IOException {
        Path in = Files.createDirectory(first.resolve("in"));
        int seed = 1;
        for (String name : List.of("a", "b", "c", "d")) {
            new WavWriter(16).write(CommandRun.tacho(890 + 5 * seed, 3, seed), in.resolve(name + ".wav"));
            seed++;
        }
        Files.createFile(in.resolve("empty.wav"));
        Path sheet = in.resolve("runs.csv");
        rows(sheet, "a.wav,rc,8,first", "b.wav,rc,8,second", "c.wav,pulses,8,", "empty.wav,pulses,8,");
        assertEquals(1, CommandRun.of("--out", first.resolve("out"), sheet).status());
    }

    @BeforeEach
    void places() throws IOException {
        try (Stream<Path> all = Files.walk(first)) {
            for (Path path : all.filter(p -> !p.equals(first)).toList()) {
                Files.copy(path, folder.resolve(first.relativize(path).toString()));
            }
        }
        in = folder.resolve("in");
        out = folder.resolve("out");
        sheet = in.resolve("runs.csv");
    }

    private void rows(String... rows) throws IOException {
        rows(sheet, rows);
    }

    private static void rows(Path sheet, String... rows) throws IOException {
        Files.writeString(sheet, "file,circuit,pole_pairs,note\n" + String.join("\n", rows) + "\n");
    }

    /** Runs again; gives the captures whose result was written anew, after comparing every byte with a run from scratch. */
    private Set<String> again(Object... options) throws IOException {
        List<Path> results;
        try (Stream<Path> all = Files.walk(out)) {
            results = all.filter(p -> p.endsWith("result.json")).toList();
        }
        for (Path result : results) {
            Files.setLastModifiedTime(result, LONG_AGO);
        }
        CommandRun run = run(out, options);
        assertEquals(1, run.status(), run.err());
        run.assertOneLine("empty.wav", "is empty");
        Set<String> anew = new TreeSet<>();
        try (Stream<Path> all = Files.walk(out)) {
            for (Path result : all.filter(p -> p.endsWith("result.json")).toList()) {
                if (!Files.getLastModifiedTime(result).equals(LONG_AGO)) {
                    anew.add(result.getParent().getFileName().toString());
                }
            }
        }
        for (int jobs : new int[] {1, 3}) {
            FromScratch whole = fromScratch(jobs);
            assertEquals(whole.tree(), CommandRun.tree(out));
            assertEquals(whole.out(), run.out().replace(out.toString(), ""));
            assertEquals(whole.err(), run.err());
        }
        return anew;
    }

    /** What a run into an empty folder gives and prints. */
    private record FromScratch(Map<String, String> tree, String out, String err) {}

    /** Such runs by their inputs: most tests have the same, and none changes what a run from scratch gives of them. */
    private static final Map<List<Object>, FromScratch> RUNS = new ConcurrentHashMap<>();

    private FromScratch fromScratch(int jobs) throws IOException {
        List<Object> inputs = List.of(jobs, CommandRun.tree(in));
        FromScratch known = RUNS.get(inputs);
        if (known != null) {
            return known;
        }
        Path scratch = folder.resolve("scratch" + RUNS.size());
        CommandRun whole = run(scratch, "--jobs", jobs);
        FromScratch made =
                new FromScratch(CommandRun.tree(scratch), whole.out().replace(scratch.toString(), ""), whole.err());
        RUNS.put(inputs, made);
        return made;
    }

    private CommandRun run(Path place, Object... options) {
        return CommandRun.of(Stream.concat(Stream.of("--out", place, sheet), Arrays.stream(options))
                .toArray());
    }

    @Test
    void nothing_changed_is_nothing_analysed() throws IOException {
        assertEquals(Set.of(), again());
    }

    @Test
    void one_capture_more_is_one_analysed() throws IOException {
        rows("a.wav,rc,8,first", "b.wav,rc,8,second", "d.wav,loop,8,", "c.wav,pulses,8,", "empty.wav,pulses,8,");
        assertEquals(Set.of("d"), again());
        assertTrue(Files.readString(out.resolve("comparison.html")).contains("loop"));
    }

    @Test
    void fresh_analyses_everything() throws IOException {
        assertEquals(Set.of("a", "b", "c", "empty"), again("--fresh"));
    }

    @Test
    void changed_content_is_analysed_anew_even_with_the_old_time_and_size() throws IOException {
        Path file = in.resolve("b.wav");
        FileTime time = Files.getLastModifiedTime(file);
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        Files.write(file, bytes);
        Files.setLastModifiedTime(file, time);
        assertEquals(Set.of("b"), again());
    }

    @ParameterizedTest
    @ValueSource(strings = {"b.wav,rc,4,second", "b.wav,rc,8,other", "b.wav,slow rc,8,second", "b.wav,rc,,second"})
    void a_changed_row_is_analysed_anew(String row) throws IOException {
        rows("a.wav,rc,8,first", row, "c.wav,pulses,8,", "empty.wav,pulses,8,");
        assertEquals(Set.of("b"), again());
    }

    /** Commas that move from one cell to another change what the cells say, though not what stands between them. */
    @Test
    void words_that_move_between_cells_are_a_change() throws IOException {
        Files.writeString(sheet, "file,circuit,setting\nb.wav,\"rc, setting=x\",\n");
        out = folder.resolve("other");
        run(out);
        Files.writeString(sheet, "file,circuit,setting\nb.wav,rc,\"x, setting=\"\n");
        run(out);
        String result = Files.readString(out.resolve("b/result.json"));
        assertTrue(result.contains("\"setting\" : \"x, setting=\""), result);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "null",
                "{}",
                "[]",
                "5",
                "not even json",
                "{\"key\":null}",
                "{\"summary\":{}}",
                "\u0000",
                "{\"key\":\"x\"}"
            })
    void damaged_measures_are_as_good_as_none(String content) throws IOException {
        Files.writeString(out.resolve("b/measures.json"), content);
        assertEquals(Set.of("b"), again());
    }

    /** Whatever part of the file is lost, the batch comes out as from scratch. */
    @Test
    void measures_with_a_part_lost_do_no_harm() throws IOException {
        String whole = Files.readString(out.resolve("b/measures.json"));
        List<String> fields = List.of(
                "key",
                "summary",
                "run",
                "folder",
                "file",
                "label",
                "grade",
                "figures",
                "findings",
                "tracePath",
                "circuit",
                "others",
                "meanRpm",
                "blocks",
                "blips",
                "trace",
                "spectrum",
                "peakToPeakPercent",
                "name",
                "x",
                "seconds");
        for (String field : fields) {
            assertNotEquals(-1, whole.indexOf("\"" + field + "\":"), field + " is not in " + whole.substring(0, 400));
            Files.writeString(out.resolve("b/measures.json"), whole.replaceFirst("\"" + field + "\":", "\"lost\":"));
            assertEquals(Set.of("b"), again(), field);
        }
    }

    @Test
    void a_changed_figure_in_the_measures_is_damage_too() throws IOException {
        Path measures = out.resolve("b/measures.json");
        String whole = Files.readString(measures);
        String changed = whole.replaceFirst("\"meanRpm\":[0-9]", "\"meanRpm\":7");
        assertNotEquals(whole, changed);
        Files.writeString(measures, changed);
        assertEquals(Set.of("b"), again());
    }

    @Test
    void measures_cut_short_are_as_good_as_none() throws IOException {
        byte[] whole = Files.readAllBytes(out.resolve("b/measures.json"));
        for (int part = 1; part < 8; part++) {
            Files.write(out.resolve("b/measures.json"), Arrays.copyOf(whole, whole.length * part / 8));
            assertEquals(Set.of("b"), again());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"report.html", "result.json", "track.csv", "events.csv", "measures.json"})
    void a_missing_result_is_made_anew(String name) throws IOException {
        Files.delete(out.resolve("b").resolve(name));
        assertEquals(Set.of("b"), again());
    }

    /** Results that somebody changed are not vouched for. */
    @ParameterizedTest
    @ValueSource(strings = {"report.html", "result.json", "track.csv", "events.csv"})
    void a_changed_result_is_made_anew(String name) throws IOException {
        Path result = out.resolve("b").resolve(name);
        Files.writeString(result, Files.readString(result) + " ");
        assertEquals(Set.of("b"), again());
    }

    /** Nor are those of another capture. */
    @ParameterizedTest
    @ValueSource(strings = {"report.html", "result.json", "track.csv", "measures.json"})
    void a_result_of_another_capture_is_made_anew(String name) throws IOException {
        Path result = out.resolve("b").resolve(name);
        Files.copy(out.resolve("a").resolve(name), result, StandardCopyOption.REPLACE_EXISTING);
        assertEquals(Set.of("b"), again());
    }

    /** Measures with a digest that fits, and words of another folder in them. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "\"folder\":\"b\" \"folder\":\"../../b\"",
                "\"folder\":\"b\" \"folder\":\"a\"",
                "\"name\":\"b\" \"name\":\"a\"",
                "\"circuit\":\"rc\" \"circuit\":null",
                "\"report.html\" \"../a/report.html\""
            })
    void forged_measures_are_as_good_as_none(String change) throws IOException {
        Path measures = out.resolve("b/measures.json");
        String whole = Files.readString(measures);
        String text = whole.substring(whole.indexOf("\"capture\":") + 10, whole.length() - 2);
        String[] words = change.split(" ");
        assertTrue(text.contains(words[0]), words[0]);
        String forged = text.replace(words[0], words[1]);
        Files.writeString(measures, "{\"sha256\":\"" + Digests.sha256(forged) + "\",\"capture\":" + forged + "}\n");
        assertEquals(Set.of("b"), again());
    }

    @Test
    void measures_of_any_size_are_refused_unread() throws IOException {
        try (RandomAccessFile file =
                new RandomAccessFile(out.resolve("b/measures.json").toFile(), "rw")) {
            file.setLength(6L << 30);
        }
        assertEquals(Set.of("b"), again());
    }

    /** A circuit less leaves no comparison of before. */
    @Test
    void a_comparison_that_no_longer_holds_is_taken_away() throws IOException {
        assertTrue(Files.exists(out.resolve("comparison.html")));
        rows("a.wav,rc,8,first", "b.wav,rc,8,second");
        assertEquals(0, run(out).status());
        assertEquals(
                Map.of(),
                CommandRun.tree(out).entrySet().stream()
                        .filter(e -> e.getKey().startsWith("comparison"))
                        .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue)));
    }
}
