package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steadyshaft.file.OwnFile;
import org.steadyshaft.report.ResultFiles;

class FaultsTest {
    @TempDir
    private Path folder;

    @Test
    void a_fault_is_told_without_its_text_and_kept_with_its_trace() throws IOException {
        RuntimeException fault = new IllegalStateException("some\nlines \u001B[2J");
        Path file = folder.resolve(ResultFiles.FAULT);

        Faults.keep(file, fault);

        assertEquals("a fault in this program, not in the recording (IllegalStateException)", Faults.words(fault));
        String kept = Files.readString(file);
        assertTrue(kept.startsWith(ResultFiles.FAULT_MARK), kept);
        assertTrue(kept.contains("at " + FaultsTest.class.getName()), kept);
        assertTrue(ResultFiles.ofACapture().stream()
                .filter(own -> own.name().equals(ResultFiles.FAULT))
                .allMatch((OwnFile own) -> own.isFreeIn(folder)));
    }

    @Test
    void what_is_kept_elsewhere_can_be_found() throws IOException {
        String words = Faults.keptElsewhere(new StackOverflowError());
        Path file = Path.of(words.substring(words.indexOf(" in ") + 4));
        assertTrue(Files.readString(file).contains("StackOverflowError"), words);
        Files.delete(file);
        Files.delete(file.getParent());
    }

    @Test
    void too_little_memory_is_no_fault() {
        OutOfMemoryError memory = new OutOfMemoryError("Java heap space");
        assertTrue(Faults.isMemory(memory));
        assertTrue(Faults.words(memory).contains("-Xmx"));
        assertFalse(Faults.words(memory).contains("fault"));
    }
}
