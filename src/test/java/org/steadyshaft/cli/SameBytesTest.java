package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;

/** Same input, same bytes: whatever the number of jobs, the locale, the time zone. Changes defaults, so it runs alone. */
@Isolated
class SameBytesTest {
    @TempDir
    private Path folder;

    private Path sheet;

    @BeforeEach
    void captures() throws IOException {
        Path in = Files.createDirectory(folder.resolve("in"));
        new WavWriter(16).write(CommandRun.tacho(900, 4, 1), in.resolve("I first.wav"));
        new WavWriter(24).write(CommandRun.tacho(1234.5, 3, 2), in.resolve("ii second.wav"));
        new ScopeTextWriter(2).write(CommandRun.tacho(600, 3, 3), in.resolve("third.csv"));
        Files.createFile(in.resolve("empty.wav"));
        Files.writeString(in.resolve("words.txt"), "no numbers\n");
        sheet = Files.writeString(
                in.resolve("runs.csv"),
                "FILE,CIRCUIT,SETTING,MAINS_HZ,POLE_PAIRS,BIRIKIM\n"
                        + "I first.wav,one,900 rpm,50,8,i\n"
                        + "ii second.wav,two,1234.5 rpm,60,8,I\n"
                        + "third.csv,one,600 rpm,50,8,\u0131\n"
                        + "empty.wav,two,,,,\n"
                        + "words.txt,two,,,,\n");
    }

    private Map<String, String> tree(String out, int jobs) throws IOException {
        Path place = folder.resolve(out);
        CommandRun run = CommandRun.of("--out", place, "--jobs", jobs, sheet);
        assertEquals(1, run.status(), run.err());
        assertEquals(2, run.err().lines().count(), run.err());
        return CommandRun.tree(place);
    }

    @Test
    void jobs_change_no_byte() throws IOException {
        Map<String, String> one = tree("one", 1);

        assertTrue(one.size() > 15, one.toString());
        assertEquals(one, tree("four", 4));
        assertEquals(one, tree("four", 4), "second run into the same folder");
    }

    @ParameterizedTest(name = "{0}, {1}")
    @CsvSource({"de-DE, Europe/Berlin", "tr-TR, Asia/Kathmandu", "ar-EG-u-nu-arab, Pacific/Apia", "hi-IN-u-nu-deva, UTC"
    })
    void locale_and_time_zone_change_no_byte(String language, String zone) throws IOException {
        Locale locale = Locale.getDefault();
        TimeZone timeZone = TimeZone.getDefault();
        try {
            Locale.setDefault(Locale.ROOT);
            TimeZone.setDefault(TimeZone.getTimeZone("UTC"));
            Map<String, String> plain = tree("plain", 2);
            Locale.setDefault(Locale.forLanguageTag(language));
            TimeZone.setDefault(TimeZone.getTimeZone(zone));
            assertEquals(plain, tree("other", 2));
        } finally {
            Locale.setDefault(locale);
            TimeZone.setDefault(timeZone);
        }
    }

    /** What a user reads on the screen is the same too. */
    @Test
    void inspect_prints_the_same_in_every_locale() {
        Locale locale = Locale.getDefault();
        try {
            Locale.setDefault(Locale.ROOT);
            CommandRun plain = CommandRun.of("inspect", folder.resolve("in/third.csv"));
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertEquals(plain, CommandRun.of("inspect", folder.resolve("in/third.csv")));
        } finally {
            Locale.setDefault(locale);
        }
    }
}
