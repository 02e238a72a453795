package org.steadyshaft.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OutputFolderTest {
    private static final List<OwnFile> OWN = List.of(OwnFile.bearing("page", "MARK"), OwnFile.bearing("table", "MARK"));

    @TempDir
    private Path folder;

    private Path out;

    @BeforeEach
    void place() {
        out = folder.resolve("out");
    }

    private List<String> names() throws IOException {
        try (Stream<Path> entries = Files.list(out)) {
            return entries.map(e -> e.getFileName().toString()).sorted().toList();
        }
    }

    private OutputFolder claim(Path... inputs) throws IOException {
        return OutputFolder.claim(out, OWN, List.of(inputs));
    }

    private void assertRefused(String words, Path... inputs) {
        OutputRefusal refusal =
                assertThrows(OutputRefusal.class, () -> claim(inputs).close());
        assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
    }

    @Test
    void a_claim_is_gone_when_it_is_closed() throws IOException {
        try (OutputFolder claimed = claim()) {
            assertEquals(out, claimed.path());
            assertEquals(List.of(OutputFolder.LOCK), names());
        }
        assertEquals(List.of(), names());
    }

    @Test
    void a_second_run_is_refused_until_the_first_is_done() throws IOException {
        OutputFolder first = claim();
        assertRefused("another run is writing into");
        assertRefused("another run is writing into");
        first.close();
        claim().close();
    }

    /** A folder reached by a link is the same folder. */
    @Test
    void a_second_run_by_another_way_is_refused() throws IOException {
        try (OutputFolder first = claim()) {
            Path way = Files.createSymbolicLink(folder.resolve("way"), first.path());
            assertThrows(
                    OutputRefusal.class,
                    () -> OutputFolder.claim(way, OWN, List.of()).close());
        }
    }

    /** What a killed run leaves: a lock that nobody holds, and unfinished files. */
    @Test
    void what_a_killed_run_left_is_cleared() throws IOException {
        Files.createDirectories(out.resolve("a"));
        Files.writeString(out.resolve(OutputFolder.LOCK), "steadyshaft is writing here\n     ");
        Files.writeString(out.resolve(".steadyshaft-17-3.part"), "half");
        Files.writeString(out.resolve("a/.steadyshaft-17-4.part"), "half");
        Files.writeString(out.resolve("mine.part"), "mine");

        try (OutputFolder claimed = claim()) {
            assertTrue(claimed.isFree("a", OWN));
        }

        assertEquals(List.of("a", "mine.part"), names());
        assertTrue(Files.notExists(out.resolve("a/.steadyshaft-17-4.part")));
    }

    @Test
    void own_and_empty_files_may_be_replaced() throws IOException {
        Files.createDirectories(out);
        Files.writeString(out.resolve("page"), "<title>MARK</title>");
        Files.createFile(out.resolve("table"));
        claim().close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"page", "table", OutputFolder.LOCK})
    void a_file_of_anothers_is_refused(String name) throws IOException {
        Files.createDirectories(out);
        Files.writeString(out.resolve(name), "mine");

        assertRefused(name + " is there already and was not written by this program");

        assertEquals(List.of(name), names());
        assertEquals("mine", Files.readString(out.resolve(name)));
    }

    @Test
    void a_folder_or_a_link_in_a_results_place_is_refused() throws IOException {
        Files.createDirectories(out.resolve("page"));
        assertRefused("page is there already");
        Files.delete(out.resolve("page"));
        Path own = Files.writeString(folder.resolve("own"), "MARK");
        Files.createSymbolicLink(out.resolve("page"), own);
        assertRefused("page is there already");
    }

    /** By whatever way it is named, an input is not written over. */
    @Test
    void an_input_is_not_overwritten() throws IOException {
        Files.createDirectories(out);
        Path table = Files.writeString(out.resolve("table"), "MARK");
        Path way = Files.createSymbolicLink(folder.resolve("way"), out);
        Path link = Files.createSymbolicLink(folder.resolve("sheet"), table);

        assertRefused("is one of the inputs", table);
        assertRefused("is one of the inputs", way.resolve("table"));
        assertRefused("is one of the inputs", link);
        assertRefused("is one of the inputs", folder.resolve("out/../out/table"));
        assertEquals("MARK", Files.readString(table));
    }

    /** A result that is not there yet may be the name of an input that is not there either. */
    @Test
    void a_refused_claim_makes_nothing() {
        assertRefused("is one of the inputs", out.resolve("page"));
        assertTrue(Files.notExists(out));
    }

    @Test
    void a_folder_within_is_free_if_it_holds_nothing_of_anothers() throws IOException {
        try (OutputFolder claimed = claim()) {
            assertTrue(claimed.isFree("new", OWN));
            Files.createDirectories(out.resolve("own"));
            Files.writeString(out.resolve("own/page"), "MARK");
            Files.writeString(out.resolve("own/recording.wav"), "mine");
            assertTrue(claimed.isFree("own", OWN));
            Files.createDirectories(out.resolve("mine"));
            Files.writeString(out.resolve("mine/page"), "mine");
            assertFalse(claimed.isFree("mine", OWN));
            Files.writeString(out.resolve("file"), "mine");
            assertFalse(claimed.isFree("file", OWN));
            Files.createSymbolicLink(out.resolve("link"), out.resolve("own"));
            assertFalse(claimed.isFree("link", OWN));
            Files.createSymbolicLink(out.resolve("nowhere"), folder.resolve("not there"));
            assertFalse(claimed.isFree("nowhere", OWN));
        }
    }

    @Test
    void a_file_in_the_folders_place_is_told() throws IOException {
        Files.writeString(out, "mine");
        IOException e = assertThrows(IOException.class, () -> claim().close());
        assertTrue(Reasons.of(e).contains("is there already and is no folder"), Reasons.of(e));
        assertEquals("mine", Files.readString(out));
    }
}
