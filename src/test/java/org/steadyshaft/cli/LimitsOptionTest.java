package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** What the user's own limits do to messages and exit status. */
class LimitsOptionTest {
    @TempDir
    private Path folder;

    private Path sheet;
    private Path out;

    @BeforeEach
    void captures() throws IOException {
        out = folder.resolve("out");
        Path in = Files.createDirectory(folder.resolve("in"));
        write(in.resolve("rough.wav"), 3, 1);
        write(in.resolve("smooth.wav"), 0.2, 2);
        sheet = Files.writeString(
                in.resolve("runs.csv"), "file,circuit,load\nrough.wav,old rc,2 kg clay\nsmooth.wav,pulses,2 kg clay\n");
    }

    /** A swing at 6.5 Hz of this amplitude; its rms is amplitude / sqrt(2). */
    private static void write(Path file, double amplitudePercent, long seed) throws IOException {
        DrawnSpeed speed = DrawnSpeed.level(900).line(6.5, amplitudePercent, 0.2);
        new WavWriter(16)
                .write(new DrawnTacho("drawn", speed, Settings.clean(8000, 15).withNoise(0.002, seed)), file);
    }

    private Path limits(String text) throws IOException {
        return Files.writeString(folder.resolve("limits.toml"), text);
    }

    private CommandRun run(Path limits) {
        return CommandRun.of("--out", out, "--limits", limits, sheet);
    }

    @Test
    void a_circuit_that_misses_a_limit_is_named_with_value_and_limit() throws IOException {
        CommandRun run = run(
                limits("[throwing]\ntitle = \"throwing bowls\"\nspeed_rpm = [400, 2500]\nripple_rms_percent = 1.25\n"));

        assertEquals(1, run.status(), run.err());
        run.assertOneLine(
                "old rc", "throwing bowls", "ripple, rms 2.1", "%", "limit is 1.25", "900 rpm, load 2 kg clay");
        assertTrue(!run.err().contains("pulses"), run.err());
        assertTrue(Files.readString(out.resolve("comparison.json")).contains("\"limitsFrom\" : \"user\""));
    }

    /** The captures' own pages say it, too, by the same limits; quietly nothing is printed but that. */
    @Test
    void every_capture_is_held_against_the_limits() throws IOException {
        Path limits =
                limits("[throwing]\ntitle = \"throwing bowls\"\nspeed_rpm = [400, 2500]\nripple_rms_percent = 1.25\n");
        CommandRun run = CommandRun.of("--quiet", "--out", out, "--limits", limits, sheet);

        assertEquals("", run.out());
        assertTrue(Files.readString(out.resolve("rough/result.json")).contains("\"holdsSpeed\" : \"no\""));
        assertTrue(Files.readString(out.resolve("smooth/result.json")).contains("\"holdsSpeed\" : \"yes\""));
        assertTrue(
                Files.readString(out.resolve("rough/report.html")).contains("Held against what throwing bowls needs"));
        CommandRun kept = CommandRun.of(
                "--out", out, "--limits", limits("[x]\nspeed_rpm = [400, 2500]\nripple_rms_percent = 9\n"), sheet);
        assertTrue(Files.readString(out.resolve("rough/result.json")).contains("\"holdsSpeed\" : \"yes\""), kept.out());
    }

    @Test
    void limits_that_all_hold_are_no_complaint() throws IOException {
        CommandRun run = run(limits("[throwing]\nspeed_rpm = [400, 2500]\nripple_rms_percent = 9\n"));

        assertEquals("", run.err());
        assertEquals(0, run.status());
        assertTrue(Files.readString(out.resolve("comparison.json")).contains("\"pass\""));
    }

    @Test
    void limits_for_other_speeds_or_loads_are_no_complaint() throws IOException {
        String strict = "ripple_rms_percent = 0.001\n";
        assertEquals(0, run(limits("[a]\nspeed_rpm = [1200, 2500]\n" + strict)).status());
        assertEquals(
                0,
                run(limits("[a]\nspeed_rpm = [400, 2500]\nload = \"none\"\n" + strict))
                        .status());
        assertEquals(
                1,
                run(limits("[a]\nspeed_rpm = [400, 2500]\nload = \"2 kg clay\"\n" + strict))
                        .status());
    }

    /** No blip in a quarter of a minute proves nothing about one a minute, for or against. */
    @Test
    void what_is_not_proven_is_no_failure() throws IOException {
        CommandRun run = run(limits("[throwing]\nspeed_rpm = [400, 2500]\nblips_per_minute = 1\n"));

        assertEquals("", run.err());
        assertEquals(0, run.status());
        assertTrue(Files.readString(out.resolve("comparison.json")).contains("\"not proven\""));
    }

    @Test
    void the_starting_points_of_the_program_fail_nobody() {
        CommandRun run = CommandRun.of("--out", out, sheet);

        assertEquals("", run.err());
        assertEquals(0, run.status());
    }

    @Test
    void one_circuit_alone_is_held_against_limits_too() throws IOException {
        Path limits = limits("[throwing]\nspeed_rpm = [400, 2500]\nripple_rms_percent = 1\n");
        CommandRun run = CommandRun.of("--out", out, "--limits", limits, folder.resolve("in/rough.wav"));

        assertEquals(1, run.status());
        run.assertOneLine("throwing", "limit is 1.00");
        assertTrue(Files.notExists(out.resolve("comparison.html")));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "[throwing]\nspeed_rpm = [400, 2500]\nripple_percent = 1\n",
                "[throwing]\nspeed_rpm = [2500, 400]\nblips_per_minute = 1\n",
                "[throwing]\nspeed_rpm = [400, 2500]\nblips_per_minute = \"\\u001b[31mfew\"\n",
                "no table at all\n",
                ""
            })
    void a_bad_file_is_wrong_usage_and_nothing_is_written(String text) throws IOException {
        Path limits = limits(text);
        Map<String, String> before = CommandRun.tree(folder);

        CommandRun run = run(limits);

        run.assertWrongUsage("--limits: " + limits, "expected");
        assertEquals(before, CommandRun.tree(folder));
    }

    @Test
    void a_missing_file_is_wrong_usage_and_nothing_is_written() {
        run(folder.resolve("none.toml")).assertWrongUsage("none.toml: there is no such file");
        assertTrue(Files.notExists(out));
    }
}
