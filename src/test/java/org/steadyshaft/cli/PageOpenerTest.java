package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PageOpenerTest {
    @ParameterizedTest
    @CsvSource({"Linux, xdg-open", "Mac OS X, open", "Windows 11, rundll32", "FreeBSD, xdg-open"})
    void everySystemHasItsCommand(String system, String command) {
        List<String> words = PageOpener.of(system).commandFor(Path.of("my reports", "index.html"));
        assertEquals(command, words.get(0));
        String address = words.get(words.size() - 1);
        assertTrue(address.startsWith("file:/") && address.endsWith("/my%20reports/index.html"), address);
    }
}
