package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RunSheetTest {
    @TempDir
    private Path folder;

    private Path sheet;

    @BeforeEach
    void place() {
        sheet = folder.resolve("sheet.csv");
    }

    private List<RunSheet.Row> rows(String text) throws IOException {
        Files.writeString(sheet, text);
        return RunSheet.read(sheet).rows();
    }

    private RunSheet.Row row(String text) throws IOException {
        List<RunSheet.Row> rows = rows(text);
        assertEquals(1, rows.size());
        return rows.get(0);
    }

    private String refusal(String text) {
        CaptureException refused = assertThrows(CaptureException.class, () -> rows(text));
        assertTrue(refused.getMessage().startsWith(sheet.toString()), refused.getMessage());
        return refused.getMessage();
    }

    @Test
    void every_column_is_read() throws IOException {
        RunSheet.Row row = row("file,circuit,setting,load,pole_pairs,mains_hz,channel,note\n"
                + "a.wav,phase angle,440 rpm,clay,8,60,2,first try\n");

        assertEquals(folder.resolve("a.wav"), row.file());
        assertEquals("a.wav", row.name());
        assertEquals("phase angle", row.circuit());
        assertEquals("440 rpm", row.setting());
        assertEquals("clay", row.load());
        assertEquals("2", row.channel());
        assertEquals("first try", row.note());
        assertEquals(OptionalInt.of(8), row.polePairs());
        assertEquals(OptionalDouble.of(60), row.mainsHz());
        assertEquals(Map.of(), row.others());
        assertEquals(Optional.empty(), row.problem());
    }

    @Test
    void cells_that_are_empty_or_missing_say_nothing() throws IOException {
        RunSheet.Row row = row("file,circuit,pole_pairs,mains_hz,brushes\na.wav,\n");

        assertEquals("", row.circuit());
        assertEquals(OptionalInt.empty(), row.polePairs());
        assertEquals(OptionalDouble.empty(), row.mainsHz());
        assertEquals(Map.of("brushes", ""), row.others());
        assertEquals(Optional.empty(), row.problem());
    }

    @Test
    void unknown_columns_are_kept_in_order() throws IOException {
        RunSheet.Row row = row("Brushes,file,Room \u00B0C,note\nworn,a.wav,19,x\n");

        assertEquals(
                List.of("Brushes", "Room \u00B0C"), List.copyOf(row.others().keySet()));
        assertEquals("worn", row.others().get("Brushes"));
        assertEquals("19", row.others().get("Room \u00B0C"));
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(strings = {",", ";", "\t", " , ", " ;\t"})
    void separators(String separator) throws IOException {
        String text = String.join(separator, "file", "circuit", "note")
                + "\n"
                + String.join(separator, "a.wav", "bridge", "fine")
                + "\n";
        RunSheet.Row row = row(text);

        assertEquals("a.wav", row.name());
        assertEquals("bridge", row.circuit());
        assertEquals("fine", row.note());
    }

    @Test
    void a_comma_in_a_name_of_a_sheet_with_semicolons() throws IOException {
        RunSheet.Row row = row("file;circuit;load, kg\na.wav;bridge;1,5\n");

        assertEquals("bridge", row.circuit());
        assertEquals("1,5", row.others().get("load, kg"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16LE", "UTF-16BE"})
    void byte_order_marks(String charset) throws IOException {
        Files.write(sheet, "\uFEFFfile,note\na.wav,\u00B5 fine\n".getBytes(charset));

        assertTrue(RunSheet.looksLikeOne(sheet));
        RunSheet.Row row = RunSheet.read(sheet).rows().get(0);
        assertEquals("a.wav", row.name());
        assertEquals("\u00B5 fine", row.note());
    }

    @Test
    void latin_one() throws IOException {
        Files.write(sheet, "file,note\na.wav,19 \u00B0C\n".getBytes(StandardCharsets.ISO_8859_1));

        assertEquals("19 \u00B0C", RunSheet.read(sheet).rows().get(0).note());
    }

    @ParameterizedTest
    @ValueSource(strings = {"FILE,Circuit", "\"file\",\"circuit\"", " file , circuit "})
    void names_of_columns_in_any_case_quoted_or_with_blanks(String head) throws IOException {
        RunSheet.Row row = row(head + "\na.wav,bridge\n");

        assertTrue(RunSheet.looksLikeOne(sheet));
        assertEquals("bridge", row.circuit());
        assertEquals(Map.of(), row.others());
    }

    @Test
    void quoted_cells_hold_commas_quotes_and_line_ends() throws IOException {
        RunSheet.Row row = row("file,circuit,note\n\"a, b.wav\",\"bridge \"\"new\"\"\",\"one\ntwo\"\n");

        assertEquals("a, b.wav", row.name());
        assertEquals("bridge \"new\"", row.circuit());
        assertEquals("one\ntwo", row.note());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r"})
    void empty_lines_are_passed_over(String end) throws IOException {
        List<RunSheet.Row> rows = rows("file,note\n\na.wav,1\n\n,no file\n   \nb.wav,2\n\n".replace("\n", end));

        assertEquals(List.of("a.wav", "b.wav"), rows.stream().map(r -> r.name()).toList());
    }

    @Test
    void paths_start_at_the_sheet() throws IOException {
        Path absolute = folder.resolve("elsewhere.wav").toAbsolutePath();
        List<RunSheet.Row> rows = rows("file\nsub/a.wav\n../b.wav\n" + absolute + "\n./sub/../c.wav\n");

        assertEquals(
                List.of(
                        folder.resolve("sub/a.wav"),
                        folder.getParent().resolve("b.wav"),
                        absolute,
                        folder.resolve("c.wav")),
                rows.stream().map(RunSheet.Row::file).toList());
    }

    @ParameterizedTest(name = "pole_pairs {0}")
    @ValueSource(strings = {"0", "-8", "8.5", "eight", "1000", "8 pairs", "99999999999", "\u0668"})
    void a_bad_number_of_pole_pairs(String cell) throws IOException {
        List<RunSheet.Row> rows = rows("file,pole_pairs\nok.wav,8\n\nbad.wav," + cell + "\nlast.wav,4\n");

        assertEquals(
                Optional.of(
                        sheet + ":4: column pole_pairs: found '" + cell + "'; expected a whole number from 1 to 999"),
                rows.get(1).problem());
        assertEquals(OptionalInt.empty(), rows.get(1).polePairs());
        assertEquals(Optional.empty(), rows.get(0).problem());
        assertEquals(OptionalInt.of(4), rows.get(2).polePairs());
    }

    @ParameterizedTest(name = "mains_hz {0}")
    @ValueSource(strings = {"55", "50 Hz", "0", "-50", "NaN", "5e1"})
    void a_bad_mains_frequency(String cell) throws IOException {
        RunSheet.Row row = row("file,mains_hz\nbad.wav," + cell);

        assertEquals(
                Optional.of(sheet + ":2: column mains_hz: found '" + cell + "'; expected 50 or 60"), row.problem());
    }

    @ParameterizedTest
    @CsvSource({"50, 50", "60.0, 60"})
    void a_good_mains_frequency(String cell, double hz) throws IOException {
        assertEquals(OptionalDouble.of(hz), row("file,mains_hz\na.wav," + cell).mainsHz());
    }

    @Test
    void two_bad_cells_of_a_row_are_both_named() throws IOException {
        String problem = row("file,pole_pairs,mains_hz\na.wav,x,y\n").problem().orElseThrow();

        assertTrue(problem.contains("column pole_pairs") && problem.contains("column mains_hz"), problem);
    }

    @Test
    void the_line_after_a_cell_of_several_lines_is_counted_right() throws IOException {
        List<RunSheet.Row> rows = rows("file,pole_pairs,note\na.wav,8,\"one\ntwo\nthree\"\nb.wav,x,\n");

        assertTrue(
                rows.get(1).problem().orElseThrow().startsWith(sheet + ":5: "),
                rows.get(1).problem().get());
    }

    @Test
    void a_name_no_file_can_have() throws IOException {
        RunSheet.Row row = row("file,note\n\"a\u0000b.wav\",x\n");

        assertTrue(
                row.problem().orElseThrow().startsWith(sheet + ":2: column file: found"),
                row.problem().get());
    }

    @Test
    void no_column_called_file() {
        String message = refusal("wave,circuit\na.wav,bridge\n");

        assertTrue(message.contains(":1: found the columns [wave, circuit]; expected one called 'file'"), message);
    }

    /** Case, spaces, hyphens, units and other words for a column do not matter. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "File;Circuit;Knob;Load;Pole pairs;Mains (Hz);Notes;Belt ratio;Day",
                "FILENAME,drive circuit,setting,loading,pole-pairs,mains_hz,remarks,belt_ratio,date",
                "recording\tdrive\tset point\tload\tPolePairs\tMains frequency\tComment\tratio\tDATE"
            })
    void headings_in_other_words(String head) throws IOException {
        String delimiter = head.contains(";") ? ";" : head.contains("\t") ? "\t" : ",";
        String cells =
                String.join(delimiter, "a.wav", "bridge", "60 rpm", "clay", "6", "60", "first", "10", "2026-03-02");
        Files.writeString(sheet, head + "\n" + cells + "\n");
        assertTrue(RunSheet.looksLikeOne(sheet), head);
        RunSheet.Row row = RunSheet.read(sheet).rows().get(0);
        assertEquals("a.wav", row.name());
        assertEquals("bridge", row.circuit());
        assertEquals("60 rpm", row.setting());
        assertEquals("clay", row.load());
        assertEquals(OptionalInt.of(6), row.polePairs());
        assertEquals(OptionalDouble.of(60), row.mainsHz());
        assertEquals("first", row.note());
        assertEquals(Map.of("belt_ratio", "10", "date", "2026-03-02"), row.others());
    }

    @ParameterizedTest
    @CsvSource({
        "circiut, circuit",
        "lod, load",
        "laod, load",
        "pole_pares, pole_pairs",
        "Poles, pole_pairs",
        "settin, setting",
        "belt_rato, belt_ratio"
    })
    void a_heading_that_nearly_matches_is_asked_about(String heading, String meant) {
        String message = refusal("file," + heading + "\na.wav,1\n");
        assertTrue(message.contains(":1: found the column '" + heading + "'; did you mean '" + meant + "'?"), message);
    }

    /** Words of the user's own that look a little like known ones are left in peace. */
    @ParameterizedTest
    @ValueSource(strings = {"room", "rate", "mode", "brushes", "wood", "node", "files a day", "tapo"})
    void words_of_the_users_own_are_kept(String heading) throws IOException {
        assertEquals(
                Map.of(heading, "1"), row("file," + heading + "\na.wav,1\n").others());
    }

    @Test
    void two_words_for_one_column_are_refused() {
        String message = refusal("file,Knob,setting\na.wav,1,2\n");
        assertTrue(message.contains("found the columns 'Knob' and 'setting', which both mean 'setting'"), message);
    }

    @Test
    void no_row_names_a_file() {
        assertTrue(refusal("file,circuit\n,bridge\n").endsWith("names no file"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"file,note\na.wav,\"never closed\n", "file,note\na.wav,\"x\"y\n"})
    void a_sheet_that_is_no_csv(String text) {
        assertTrue(refusal(text).contains("cannot be read as a run sheet"));
    }

    @Test
    void two_columns_of_one_name_are_refused() {
        String message = refusal("file,note,note\na.wav,1,2\n");
        assertTrue(message.contains("note"), message);
    }

    @Test
    void the_line_of_a_broken_quote_is_told() {
        String message = refusal("file,note\na.wav,ok\nb.wav,\"x\"y\n");
        assertTrue(message.substring(sheet.toString().length()).contains("3"), message);
    }

    @ParameterizedTest
    @ValueSource(strings = {"file,circuit\n", "circuit;FILE\n", "\"file\"\ta\n", "file\n"})
    void looks_like_a_sheet(String text) throws IOException {
        Files.writeString(sheet, text);
        assertTrue(RunSheet.looksLikeOne(sheet));
    }

    /** The last one is a scope export whose first line names its own file. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "\n",
                "Time,Tacho\n",
                "profile,circuit\n",
                "0.1,0.2\n",
                "File,run 7\nTime,Tacho\n0,0.5\n1,0.7\n"
            })
    void does_not_look_like_a_sheet(String text) throws IOException {
        Files.writeString(sheet, text);
        assertFalse(RunSheet.looksLikeOne(sheet));
    }
}
