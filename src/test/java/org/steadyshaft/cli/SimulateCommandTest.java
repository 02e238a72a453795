package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steadyshaft.simulate.ScenarioReader;

/** A user's own scenario: made with its truth and a run sheet, or refused with its place and nothing written. */
class SimulateCommandTest {
    @TempDir
    private Path folder;

    private Path mine(String more) throws IOException {
        try (InputStream in = ScenarioReader.class.getResourceAsStream("scenarios/bench-start.toml")) {
            return Files.writeString(folder.resolve("mine.toml"), new String(in.readAllBytes()) + more);
        }
    }

    @Test
    void aScenarioOfOnesOwnIsMade() throws IOException {
        Path file = mine("\n[[faults]]\nkind = \"lost-samples\"\nat = 8.0\nsize = 333\n");
        Path out = folder.resolve("out");
        CommandRun run = CommandRun.of("simulate", file, "--out", out);
        assertEquals(0, run.status(), run.err());
        Set<String> made;
        try (var files = Files.list(out)) {
            made = files.map(f -> f.getFileName().toString()).collect(Collectors.toSet());
        }
        assertEquals(Set.of("mine.wav", "mine.truth.json", "run-sheet.csv"), made);
        assertEquals(44 + 2 * (40 * 8000 - 333), Files.size(out.resolve("mine.wav")));
        String truth = Files.readString(out.resolve("mine.truth.json"));
        assertTrue(truth.contains("\"recorderFaults\"") && truth.contains("\"lost-samples\""), truth.substring(0, 900));
    }

    @Test
    void aMistakeIsWrongUsageAndWritesNothing() throws IOException {
        Path out = folder.resolve("out");
        CommandRun.of("simulate", mine("\n[moter]\nfan = 1\n"), "--out", out)
                .assertWrongUsage("mine.toml: moter.fan: found 'a key that is not known here'");
        CommandRun.of("simulate", mine("\n[[faults]\n"), "--out", out).assertWrongUsage("mine.toml: ");
        CommandRun.of("simulate", folder.resolve("missing.toml"), "--out", out).assertWrongUsage("missing.toml");
        assertFalse(Files.exists(out));
    }

    @Test
    void theKeysAreDescribed() {
        CommandRun run = CommandRun.of("simulate", "--describe");
        assertEquals(0, run.status());
        assertTrue(run.out().contains("motor.inertia [kg m^2], needed: of all that turns with the motor"), run.out());
        assertTrue(run.out().contains("recorder.bits [count], default 16: of a sound card"), run.out());
    }
}
