package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.capture.RunSheet;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.signal.ArraySource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** The commands for the work around the recordings, as a user gives them: sheet, poles, windings. */
class BesideTheBatchTest {
    private static void running(Path file, double rpm) throws IOException {
        Settings settings = Settings.clean(8000, 12).withNoise(0.003, 5);
        new WavWriter(16).write(new DrawnTacho("made", DrawnSpeed.level(rpm), settings), file);
    }

    /** Ten turns of eight pole pairs at an even turn a second, then two seconds of rest. */
    private static void byHand(Path file) throws IOException {
        double[] volts = new double[8000 * 13];
        for (int i = 8000; i < 8000 * 11; i++) {
            volts[i] = 0.3 * Math.sin(2 * Math.PI * 8 * i / 8000.0);
        }
        new WavWriter(16).write(new ArraySource("hand", 8000, null, volts), file);
    }

    @Test
    void aSheetSaysWhatCanBeTold(@TempDir Path folder) throws IOException {
        running(folder.resolve("b.wav"), 900);
        running(folder.resolve("a.wav"), 1350);
        Files.writeString(folder.resolve("broken.wav"), "x");
        CommandRun run = CommandRun.of("sheet", folder);
        assertEquals(1, run.status(), "one cannot be read");
        assertTrue(run.err().contains("broken.wav") && run.err().contains("left out of the sheet"), run.err());
        RunSheet sheet = RunSheet.read(folder.resolve("run-sheet.csv"));
        assertEquals(
                List.of("a.wav", "b.wav"),
                sheet.rows().stream().map(RunSheet.Row::name).toList());
        assertEquals("1350 rpm with 8 pole pairs", sheet.rows().get(0).note());
        assertEquals("", sheet.rows().get(0).circuit());
        assertTrue(sheet.rows().get(0).polePairs().isEmpty(), "nobody said");
        assertTrue(sheet.rows().get(0).others().get("date").matches("\\d{4}-\\d\\d-\\d\\d"));
    }

    @Test
    void aSheetThatIsThereIsLeftAlone(@TempDir Path folder) throws IOException {
        running(folder.resolve("a.wav"), 900);
        Files.writeString(folder.resolve("run-sheet.csv"), "file\nmine.wav\n");
        CommandRun run = CommandRun.of("sheet", folder);
        run.assertWrongUsage("run-sheet.csv is there already; nothing was written");
        assertEquals("file\nmine.wav\n", Files.readString(folder.resolve("run-sheet.csv")));
    }

    @Test
    void aFolderWithoutRecordingsGetsNoSheet(@TempDir Path folder) throws IOException {
        CommandRun.of("sheet", folder).assertWrongUsage("the folder holds no recordings");
        CommandRun.of("sheet", folder.resolve("none")).assertWrongUsage("found no folder of this name");
        assertFalse(Files.exists(folder.resolve("run-sheet.csv")));
    }

    @Test
    void polesAreCountedByHand(@TempDir Path folder) throws IOException {
        byHand(folder.resolve("hand.wav"));
        CommandRun run = CommandRun.of(
                "poles",
                folder.resolve("hand.wav"),
                "--turns",
                "10",
                "--wheel-turns",
                "1",
                "--out",
                folder.resolve("out"));
        assertEquals(0, run.status(), run.err());
        assertTrue(
                run.out().startsWith("The tacho has 8 pole pairs: write pole_pairs 8 into the run sheet."), run.out());
        assertTrue(run.out().contains("belt_ratio 10"), run.out());
        assertTrue(run.out().contains("Caution."), run.out());
        assertTrue(Files.readString(folder.resolve("out/poles.html")).contains("The tacho has 8 pole pairs"));
    }

    @Test
    void polesThatCannotBeToldAreRefused(@TempDir Path folder) throws IOException {
        byHand(folder.resolve("hand.wav"));
        CommandRun run = CommandRun.of("poles", folder.resolve("hand.wav"), "--turns", "9.5");
        assertEquals(1, run.status());
        assertTrue(
                run.out()
                        .startsWith(
                                "The number of pole pairs cannot be told from this recording: no whole number fits"),
                run.out());
        assertTrue(run.out().contains("What to record instead"), run.out());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "poles|poles needs a recording of the shaft turned by hand, or --strobe-marks",
                "poles x.wav|poles needs --turns",
                "poles x.wav --turns 0|--turns: found 0.0; expected 0.5 to 100000",
                "poles x.wav --turns 10|x.wav:",
                "windings none.csv|none.csv",
                "windings --ranges none.csv none.csv|none.csv"
            })
    void whatIsMissingIsAskedFor(String line, String message) {
        CommandRun run = CommandRun.of((Object[]) line.split(" "));
        assertEquals(2, run.status(), run.out());
        assertTrue(run.err().contains(message), run.err());
    }

    @Test
    void aStrobeNeedsNoRecording() {
        CommandRun run = CommandRun.of("poles", "--strobe-marks", "180");
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().contains("33.3333 rpm"), run.out());
        assertTrue(run.out().contains("66.6667"), "it names what cannot be told apart: " + run.out());
    }

    @Test
    void windingsAreToldFromATable(@TempDir Path folder) throws IOException {
        Path table = Files.writeString(
                folder.resolve("motor.csv"), "from,to,ohms,jumps,volts\n1,2,2.3,yes,\n3,4,1.6,,\n5,6,184,,yes\n");
        CommandRun run = CommandRun.of("windings", table, "--out", folder.resolve("out"));
        assertEquals(0, run.status(), run.err());
        assertTrue(
                run.out().startsWith("1 and 2 is the armature and 5 and 6 is the tacho. 1 pair cannot be told yet."),
                run.out());
        assertTrue(run.out().indexOf("Caution.") < run.out().indexOf("What lies between"), "cautions first");
        assertTrue(Files.exists(folder.resolve("out/windings.html")));
    }

    /** Three pairs asked for, one wrong answer asked again. */
    @Test
    void windingsAreAskedForOnATerminal() {
        InputStream before = System.in;
        try {
            System.setIn(new ByteArrayInputStream("1 2 5\n2,3 j\nmany\no\n\n".getBytes(StandardCharsets.UTF_8)));
            CommandRun run = CommandRun.of("windings");
            assertEquals(0, run.status(), run.err());
            assertTrue(run.out().contains("Motor unplugged"), run.out());
            assertTrue(run.out().contains("Found 'many'; expected a number of ohm"), run.out());
            assertTrue(run.out().contains("1 and 2 is the armature."), run.out());
        } finally {
            System.setIn(before);
        }
    }
}
