package org.steadyshaft.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WholeFilesTest {
    @TempDir
    private Path folder;

    private List<String> names(Path place) throws IOException {
        try (Stream<Path> entries = Files.list(place)) {
            return entries.map(e -> e.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void a_file_is_written_and_its_digest_given() throws IOException {
        String digest = WholeFiles.write(folder.resolve("deep/er/a.txt"), out -> out.write("abc"));

        assertEquals("abc", Files.readString(folder.resolve("deep/er/a.txt")));
        // FIPS 180-4's own example for "abc", as published with the standard
        assertEquals("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", digest);
        assertEquals(digest, InputFiles.sha256(folder.resolve("deep/er/a.txt")));
        assertEquals(List.of("a.txt"), names(folder.resolve("deep/er")));
    }

    @Test
    void what_fails_half_way_leaves_the_old_file_and_nothing_else() throws IOException {
        Path file = Files.writeString(folder.resolve("a.txt"), "old");

        assertThrows(
                IOException.class,
                () -> WholeFiles.write(file, out -> {
                    out.write("half of it");
                    out.flush();
                    throw new IOException("the cable came off");
                }));

        assertEquals("old", Files.readString(file));
        assertEquals(List.of("a.txt"), names(folder));
    }

    @Test
    void a_full_disk_is_told_and_leaves_nothing() throws IOException {
        Configuration small = Configuration.unix().toBuilder()
                .setMaxSize(1 << 16)
                .setBlockSize(1 << 12)
                .build();
        try (FileSystem disk = Jimfs.newFileSystem(small)) {
            Path place = Files.createDirectory(disk.getPath("/results"));
            WholeFiles.write(place.resolve("first"), out -> out.write("x".repeat(1 << 15)));

            IOException full = assertThrows(
                    IOException.class,
                    () -> WholeFiles.write(place.resolve("second"), out -> out.write("x".repeat(1 << 17))));

            assertFalse(Reasons.of(full).isBlank());
            assertEquals(List.of("first"), names(place));
            assertEquals(1 << 15, Files.size(place.resolve("first")));
        }
    }

    @Test
    void a_link_in_the_place_is_not_followed() throws IOException {
        Path mine = Files.writeString(folder.resolve("mine"), "mine");
        Path link = Files.createSymbolicLink(folder.resolve("link"), mine);

        WholeFiles.write(link, out -> out.write("new"));

        assertEquals("mine", Files.readString(mine));
        assertEquals("new", Files.readString(link));
        assertFalse(Files.isSymbolicLink(link));
    }

    @Test
    void a_link_is_taken_away_itself() throws IOException {
        Path mine = Files.writeString(folder.resolve("mine"), "mine");
        Path link = Files.createSymbolicLink(folder.resolve("link"), mine);

        WholeFiles.remove(link);

        assertEquals("mine", Files.readString(mine));
        assertEquals(List.of("mine"), names(folder));
    }

    /** Two files written at once beside one another never share an unfinished name. */
    @Test
    void unfinished_names_are_unique() throws IOException {
        WholeFiles.make(folder.resolve("outer"), outer -> {
            WholeFiles.make(folder.resolve("inner"), inner -> {
                assertFalse(inner.equals(outer));
                assertTrue(Files.exists(inner) && Files.exists(outer));
            });
            assertTrue(Files.exists(outer));
        });
        assertEquals(List.of("inner", "outer"), names(folder));
    }
}
