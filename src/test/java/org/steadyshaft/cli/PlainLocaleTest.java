package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A machine without a locale, as in a bare container: Java then cannot write names beyond ASCII. */
class PlainLocaleTest {
    @TempDir
    private Path folder;

    @Test
    void a_name_the_machine_cannot_write_costs_only_its_own_capture() throws Exception {
        CommandRun.wav(folder.resolve("good.wav"));
        Path sheet = Files.writeString(folder.resolve("runs.csv"), "file,circuit\n\u00FC.wav,one\ngood.wav,two\n");
        Path out = folder.resolve("out");
        Path printed = folder.resolve("printed.txt");

        int status = inPlainLocale(printed, "--out", out.toString(), sheet.toString());

        String text = Files.readString(printed);
        assertFalse(text.contains("Exception"), text);
        assertEquals(1, status, text);
        assertTrue(text.contains("steadyshaft: "), text);
        CommandRun.assertReported(out, "good");
    }

    private static int inPlainLocale(Path printed, String... args) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(
                System.getProperty("java.home") + File.separator + "bin" + File.separator + "java",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName());
        builder.command().addAll(List.of(args));
        builder.environment().put("LC_ALL", "C");
        Process process = builder.redirectErrorStream(true)
                .redirectOutput(printed.toFile())
                .start();
        try {
            assertTrue(process.waitFor(30, TimeUnit.SECONDS), "still running after 30 s");
            return process.exitValue();
        } finally {
            process.destroyForcibly();
        }
    }
}
