package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** The run sheet's column {@code tacho}: captures of one tacho help one another, whatever is kept of them, and in any order. */
class OneTachoBatchTest {
    @TempDir
    private Path folder;

    private Path sheet;
    private Path out;

    @BeforeEach
    void record() throws IOException {
        sheet = folder.resolve("runs.csv");
        out = folder.resolve("out");
        write("hidden", 600.002, 3);
        write("clean", 623, 4);
        rows("grey", "Grey ");
    }

    private void write(String name, double rpm, long seed) throws IOException {
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(100.01, 0.3, 1);
        Settings settings = Settings.clean(8000, 16)
                .withShape(500 / rpm, 0.03, 0.05)
                .withPattern(1.1, -0.4, 0.3, -1.2, 0.6, 0.2, -0.9, 0.3)
                .withHum(0.01, 50.005)
                .withNoise(0.002, seed);
        new WavWriter(16).write(new DrawnTacho(name, speed, settings), folder.resolve(name + ".wav"));
    }

    private void rows(String ofHidden, String ofClean) throws IOException {
        Files.writeString(sheet, "file,pole_pairs,tacho\nhidden.wav,8," + ofHidden + "\nclean.wav,8," + ofClean + "\n");
    }

    private String hidden(Path place, Object... options) throws IOException {
        Object[] arguments = new Object[3 + options.length];
        System.arraycopy(options, 0, arguments, 3, options.length);
        arguments[0] = "--out";
        arguments[1] = place;
        arguments[2] = sheet;
        CommandRun run = CommandRun.of(arguments);
        assertEquals(0, run.status(), run.err());
        return Files.readString(place.resolve("hidden").resolve("result.json"));
    }

    @Test
    void one_tacho_at_another_speed_tells() throws IOException {
        assertTrue(hidden(out).contains("otherCaptures"), hidden(out));
        assertTrue(Files.readString(out.resolve("hidden").resolve("report.html"))
                .contains("told from the poles by 1 other capture of the tacho"));
    }

    @Test
    void two_tachos_do_not() throws IOException {
        rows("grey", "blue");
        assertFalse(hidden(out).contains("otherCaptures"));
        rows("", "");
        assertFalse(hidden(out).contains("otherCaptures"));
    }

    @Test
    void what_is_kept_counts_only_together() throws IOException {
        hidden(out);
        write("clean", 931, 5);
        hidden(out);
        hidden(folder.resolve("scratch"), "--jobs", "1");
        assertEquals(CommandRun.tree(folder.resolve("scratch")), CommandRun.tree(out));
        Files.delete(out.resolve("clean").resolve("measures.json"));
        hidden(out);
        assertEquals(CommandRun.tree(folder.resolve("scratch")), CommandRun.tree(out));
    }
}
