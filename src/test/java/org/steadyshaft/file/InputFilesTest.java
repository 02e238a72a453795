package org.steadyshaft.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class InputFilesTest {
    @TempDir
    private Path folder;

    private String problem(Path file) {
        return InputFiles.problem(file, "a recording").orElse("");
    }

    @Test
    void a_file_with_something_in_it_can_be_tried() throws IOException {
        assertEquals(Optional.empty(), InputFiles.problem(Files.writeString(folder.resolve("a"), "x"), "a recording"));
    }

    @Test
    void others_are_named_for_what_they_are() throws IOException {
        assertEquals("is a folder; expected a recording", problem(folder));
        assertEquals("is empty; expected a recording", problem(Files.createFile(folder.resolve("empty"))));
    }

    @Test
    void a_missing_file_is_told_with_the_one_that_was_meant() throws IOException {
        Files.createFile(folder.resolve("wheel-1.wav"));
        assertEquals("there is no such file; did you mean 'wheel-1.wav'?", problem(folder.resolve("wheel_1.wav")));
        assertEquals("there is no such file", problem(folder.resolve("clay.csv")));
        assertEquals("there is no such file", problem(folder.resolve("not/there.wav")));
    }

    /** Opening a pipe that nobody writes to never returns. */
    @Test
    @Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_pipe_is_never_opened() throws IOException, InterruptedException {
        Path pipe = folder.resolve("pipe.wav");
        assumeTrue(Pipe.made(pipe), "no mkfifo here");

        assertEquals("is a device, a pipe or a socket; expected a recording", problem(pipe));
        assertThrows(IOException.class, () -> InputFiles.sha256(pipe));
        assertThrows(IOException.class, () -> InputFiles.text(pipe));
    }

    @Test
    void text_comes_without_an_editors_mark() throws IOException {
        Path file = Files.writeString(folder.resolve("a.toml"), "\uFEFFx = 1\n");
        assertEquals("x = 1\n", InputFiles.text(file));
    }

    @Test
    void text_that_is_none_or_too_long_is_refused_by_name() throws IOException {
        Path latin = Files.write(folder.resolve("latin"), "\u00E9".getBytes(StandardCharsets.ISO_8859_1));
        Path big = Files.writeString(folder.resolve("big"), "x".repeat((1 << 20) + 1));
        assertRefused(latin, "found bytes that are not UTF-8; expected a text file");
        assertRefused(big, "expected a short text file");
        assertRefused(folder, "is a folder; expected a text file");
        assertRefused(folder.resolve("c"), "there is no such file");
    }

    private static void assertRefused(Path file, String words) {
        IOException e = assertThrows(IOException.class, () -> InputFiles.text(file));
        assertTrue(e.getMessage().startsWith(file + ": ") && e.getMessage().contains(words), e.getMessage());
    }
}
