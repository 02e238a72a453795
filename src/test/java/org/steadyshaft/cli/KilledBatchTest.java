package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steadyshaft.Thorough;
import org.steadyshaft.capture.WavWriter;

/**
 * A batch that is killed at any moment, again and again and with other settings each time, and then run once more leaves the same bytes as
 * one from scratch.
 */
class KilledBatchTest {
    private static final int CAPTURES = 5;
    private static final long SEED = 20_261_201;
    private static final int[] POLE_PAIRS = {8, 4, 6};

    @TempDir
    private Path folder;

    private final List<Path> files = new ArrayList<>();

    private List<Object> arguments(Path out, int pairs) {
        List<Object> arguments = new ArrayList<>(List.of("--out", out, "--pole-pairs", pairs));
        arguments.addAll(files);
        return arguments;
    }

    private Process start(Path out, int pairs) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
        arguments(out, pairs).forEach(argument -> command.add(argument.toString()));
        return new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    @Test
    void killed_at_any_moment_it_tells_nothing_old() throws IOException, InterruptedException {
        Path in = Files.createDirectory(folder.resolve("in"));
        for (int i = 0; i < CAPTURES; i++) {
            Path file = in.resolve("run" + i + ".wav");
            new WavWriter(16).write(CommandRun.tacho(850 + 20 * i, 6, i), file);
            files.add(file);
        }
        List<Map<String, String>> fresh = new ArrayList<>();
        for (int pairs : POLE_PAIRS) {
            Path scratch = folder.resolve("scratch" + pairs);
            assertEquals(0, CommandRun.of(arguments(scratch, pairs).toArray()).status());
            fresh.add(CommandRun.tree(scratch));
        }
        Path out = folder.resolve("out");
        Random random = new Random(SEED);
        int kills = Thorough.count(6, 30);
        int cut = 0;
        for (int i = 0; i < kills; i++) {
            Process process = start(out, POLE_PAIRS[random.nextInt(POLE_PAIRS.length)]);
            cut += process.waitFor(300 + random.nextInt(2500), TimeUnit.MILLISECONDS) ? 0 : 1;
            process.destroyForcibly().waitFor();
            if (i % 3 == 2) {
                int kind = random.nextInt(POLE_PAIRS.length);
                CommandRun whole =
                        CommandRun.of(arguments(out, POLE_PAIRS[kind]).toArray());
                assertEquals(0, whole.status(), whole.err());
                assertEquals(fresh.get(kind), CommandRun.tree(out), "seed " + SEED + ", after kill " + i);
            }
        }
        assertTrue(cut > 0, "every run was done before it could be killed");
    }
}
