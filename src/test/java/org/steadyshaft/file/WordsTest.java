package org.steadyshaft.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.EOFException;
import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.zip.ZipException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Near names, reasons and cells: what users read when something is wrong. */
class WordsTest {
    private static final Set<String> COMMANDS = Set.of("analyse", "inspect", "simulate", "--help", "--version", "-h");

    @ParameterizedTest
    @CsvSource({
        "analyze, analyse",
        "Analyse, analyse",
        "analyses, analyse",
        "inspekt, inspect",
        "simulat, simulate",
        "help, --help",
        "version, --version",
        "--hepl, --help"
    })
    void a_mistyped_word_is_known(String mistyped, String meant) {
        assertEquals(Optional.of(meant), NearNames.word(mistyped, COMMANDS));
    }

    @ParameterizedTest
    @ValueSource(strings = {"clay", "x", "", "recordings", "wheel-slow-light"})
    void another_word_is_near_none(String word) {
        assertEquals(Optional.empty(), NearNames.word(word, COMMANDS));
    }

    @Test
    void a_very_long_word_is_not_compared() {
        assertEquals(Optional.empty(), NearNames.word("a".repeat(100_000), COMMANDS));
    }

    @Test
    void a_reason_is_never_the_bare_text_of_an_exception() {
        List<IOException> all = List.of(
                new AccessDeniedException("a"),
                new FileAlreadyExistsException("a"),
                new NoSuchFileException("a"),
                new DirectoryNotEmptyException("a"),
                new FileSystemException("a"),
                new FileSystemException("a", null, "No space left on device"),
                new IOException(),
                new IOException(""),
                new IOException("No space left on device"),
                new EOFException("Unexpected end of ZLIB input stream"),
                new ZipException("invalid stored block lengths"),
                new MalformedInputException(1));
        for (IOException e : all) {
            String reason = Reasons.of(e);
            assertFalse(reason.isBlank(), e.toString());
            assertFalse(reason.contains("null"), reason);
            assertFalse(reason.contains("ZLIB") || reason.contains("stored block"), reason);
        }
        assertEquals("no space left on device: a", Reasons.of(all.get(5)));
        assertEquals("no space left on the disk", Reasons.of(all.get(8)));
    }

    @Test
    void a_reason_is_one_plain_line() {
        String reason = Reasons.of(new IOException("first\nsecond\u001B[2J"));
        assertEquals("first", reason);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"=1+1", "+1 |cmd", "-2+3", "@SUM(A1)", "=", "-", "\uFF1D1", "--5", "+49 170", "=HYPERLINK(\"x\")"
            })
    void a_cell_that_would_run_is_defused(String cell) {
        assertEquals("'" + cell, SpreadsheetText.of(cell));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-5", "+3.5", "-1e-3", "600 rpm", "light = none", "a=b", "'=1", "-0,5"})
    void other_cells_stay_as_they_are(String cell) {
        assertEquals(cell, SpreadsheetText.of(cell));
        assertTrue(cell.length() < 20);
    }
}
