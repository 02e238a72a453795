package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** Recordings converted by a general-purpose converter (Debian's sox) in every depth and read back exactly. */
class ConvertedFilesTest {
    private static final Path CONVERTER = Path.of("/usr/bin/sox");

    @TempDir
    Path folder;

    private Path original;

    @BeforeEach
    void makeTheOriginal() throws IOException {
        if (!"required".equals(System.getenv("STEADYSHAFT_BROWSER_TESTS"))) {
            assumeTrue(Files.isExecutable(CONVERTER), "no /usr/bin/sox: install it to read back converted files");
        }
        original = folder.resolve("original.wav");
        Settings settings = Settings.clean(48000, 0.3).withShape(0.4, 0.1, 0.1).withNoise(0.01, 3);
        new WavWriter(24).write(new DrawnTacho("original", DrawnSpeed.level(1300), settings), original);
    }

    private Path convert(String target, List<String> options) throws IOException, InterruptedException {
        Path file = folder.resolve(target);
        List<String> command = new ArrayList<>(List.of(CONVERTER.toString(), "-D", original.toString()));
        command.addAll(options);
        command.add(file.toString());
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes());
        assertTrue(process.waitFor(20, TimeUnit.SECONDS));
        assertEquals(0, process.exitValue(), said);
        return file;
    }

    private double[] read(Path file) throws IOException {
        return ReadBack.channel(Recordings.open(file, file.getFileName().toString(), ReadOptions.NONE), 0);
    }

    @ParameterizedTest(name = "{0} {1} {2}")
    @CsvSource({
        "a.wav, 24, signed",
        "b.wav, 32, signed",
        "c.wav, 32, floating-point",
        "d.wav, 64, floating-point",
        "e.aiff, 24, signed",
        "f.aiff, 32, signed",
        "g.aifc, 24, signed"
    })
    void aDeepCopyIsTheSame(String target, int bits, String coding) throws Exception {
        Path copy = convert(target, List.of("-b", Integer.toString(bits), "-e", coding));
        assertArrayEquals(read(original), read(copy));
    }

    @ParameterizedTest(name = "{0} {1} bits")
    @CsvSource({"a.wav, 8", "b.wav, 16", "c.aiff, 8", "d.aiff, 16"})
    void aShallowCopyIsTheSameToHalfAStep(String target, int bits) throws Exception {
        String coding = bits == 8 && target.endsWith("wav") ? "unsigned" : "signed";
        double[] copy = read(convert(target, List.of("-b", Integer.toString(bits), "-e", coding)));
        double[] whole = read(original);
        for (int i = 0; i < whole.length; i++) {
            assertEquals(whole[i], copy[i], 0.5001 * Math.scalb(1, 1 - bits), "sample " + i);
        }
    }

    @Test
    void bigEndianWavIsTheSame() throws Exception {
        assertArrayEquals(read(original), read(convert("a.wav", List.of("-B"))));
    }

    @ParameterizedTest
    @ValueSource(strings = {"a-law", "mu-law", "ima-adpcm", "ms-adpcm"})
    void packedCodesAreRefusedByName(String coding) throws Exception {
        Path packed = convert("p.wav", List.of("-e", coding));
        String message =
                assertThrows(CaptureException.class, () -> read(packed)).getMessage();
        assertTrue(message.matches("p.wav: samples are coded as (A-law|mu-law|IMA ADPCM|ADPCM) .*"), message);
    }
}
