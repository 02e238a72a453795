package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.capture.RunSheet;

/** The plan as a user asks for it. */
class PlanCommandTest {
    @Test
    void aPlanIsPrintedAndWrittenWithItsRunSheet(@TempDir Path folder) throws Exception {
        Path out = folder.resolve("plan");
        CommandRun run = CommandRun.of(
                "plan",
                "--top-rpm",
                "2300",
                "--input-volts",
                "1",
                "--tacho-volts",
                "30",
                "--at-rpm",
                "2000",
                "--blips",
                "2",
                "--circuits",
                "RC and diac,timer",
                "--out",
                out.toString());
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().startsWith("Record at 16000 Hz or more, 120 s each run"), run.out());
        assertTrue(run.out().contains("kohm across the input"), run.out());
        assertTrue(run.out().contains("Caution."), run.out());
        assertTrue(Files.readString(out.resolve("plan.html")).contains("Caution."));
        RunSheet sheet = RunSheet.read(out.resolve("run-sheet.csv"));
        assertEquals(36, sheet.rows().size());
        assertEquals("RC and diac", sheet.rows().get(0).circuit());
        assertEquals(8, sheet.rows().get(0).polePairs().getAsInt());
    }

    @Test
    void aRunSheetThatIsThereIsLeftAlone(@TempDir Path out) throws Exception {
        Files.writeString(out.resolve("run-sheet.csv"), "file,circuit\nmine.wav,mine\n");
        CommandRun run = CommandRun.of("plan", "--top-rpm", "2300", "--input-volts", "1", "--out", out.toString());
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().contains("is there already and was left as it is"), run.out());
        assertEquals("file,circuit\nmine.wav,mine\n", Files.readString(out.resolve("run-sheet.csv")));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "plan --input-volts 1|plan needs --top-rpm",
                "plan --top-rpm 2300|plan needs --input-volts",
                "plan --top-rpm -1 --input-volts 1|--top-rpm: found -1.0; expected above 0",
                "plan --top-rpm 2300 --lowest-rpm 2400 --input-volts 1|--lowest-rpm: found 2400.0; expected above 0 and at most 2300.0",
                "plan --top-rpm 2300 --input-volts 1 --tacho-volts 3|belong together",
                "plan --top-rpm 2300 --input-volts 1 --bits 99|--bits: found 99; expected 4 to 32",
                "plan --top-rpm 2300 --input-volts 1 --mains-hz 55|--mains-hz: found 55.0; expected 50 or 60",
                "plan --top-rpm 1e6 --input-volts 1|--top-rpm: found 1000000.0; expected above 0 and at most 100000.0",
                "plan --top-rpm 10 --lowest-rpm 0.001 --input-volts 1|--lowest-rpm: found 0.001; expected 1 or more",
                "plan --top-rpm 2300 --input-volts 1 --circuits ,,|--circuits: found no name",
                "plan --top-rpm 2300 --input-volts 1 --tacho-volts 600 --at-rpm 100|--tacho-volts: 600.0 V at 100.0 rpm are",
                "plan --top-rpm 2300 --input-volts NaN|--input-volts: found NaN"
            })
    void whatIsMissingOrWrongIsRefused(String line, String message) {
        CommandRun run = CommandRun.of((Object[]) line.split(" "));
        assertEquals(2, run.status());
        assertTrue(run.err().contains(message), run.err());
        assertFalse(run.out().contains("Record at"), run.out());
    }
}
