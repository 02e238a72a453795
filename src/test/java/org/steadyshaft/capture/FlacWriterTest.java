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
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.signal.ArraySource;
import org.steadyshaft.signal.SampleSource;

/** What is written as FLAC is read as what it was, by the own reader and by the decoder of another maker. */
class FlacWriterTest {
    private static final Path DECODER = Path.of("/usr/bin/flac");

    @TempDir
    private Path folder;

    private enum Signal {
        SILENCE,
        TONE,
        NOISE,
        EXTREMES;

        double[] draw(int samples) {
            Random random = new Random(3);
            double[] drawn = new double[samples];
            for (int i = 0; i < samples; i++) {
                drawn[i] = switch (this) {
                    case SILENCE -> 0;
                    case TONE -> 0.5 * Math.sin(0.05 * i) + 1e-3 * random.nextGaussian();
                    case NOISE -> 2 * random.nextDouble() - 1;
                    case EXTREMES -> random.nextBoolean() ? 1 : -1;
                };
            }
            return drawn;
        }
    }

    /** Shorter than a prediction, a block and its neighbours, and more frames than one byte can number. */
    static List<Arguments> cases() {
        List<Arguments> cases = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            for (int bits : new int[] {16, 24}) {
                for (int channels : new int[] {1, 2}) {
                    for (int samples : new int[] {1, 3, 4095, 4096, 4097, 540_000}) {
                        cases.add(Arguments.of(signal, bits, channels, samples));
                    }
                }
            }
        }
        return cases;
    }

    @ParameterizedTest
    @MethodSource("cases")
    void itIsReadAsItWas(Signal signal, int bits, int channels, int samples) throws Exception {
        SampleSource source = wav(signal.draw(samples), bits, channels);
        Path file = folder.resolve("written.flac");
        new FlacWriter(bits).write(source, file);
        SampleSource read = FlacSource.open(file, "written.flac");
        assertEquals(List.of(), read.remarks());
        assertEquals(source.samples(), read.samples());
        assertArrayEquals(ReadBack.all(source, 8192), ReadBack.all(read, 8192));
        assertTrue(signal != Signal.TONE || samples < 4096 || Files.size(file) < 0.8 * samples * channels * bits / 8);
    }

    @ParameterizedTest
    @MethodSource("cases")
    void anotherDecoderFindsNothingWrong(Signal signal, int bits, int channels, int samples) throws Exception {
        assumeTrue(Files.isExecutable(DECODER), DECODER + " is not installed, so there is nothing to compare with");
        Path file = folder.resolve("written.flac");
        new FlacWriter(bits).write(wav(signal.draw(samples), bits, channels), file);
        Process decoder = new ProcessBuilder(
                        DECODER.toString(), "--silent", "--warnings-as-errors", "--test", file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(decoder.getInputStream().readAllBytes());
        assertTrue(decoder.waitFor(60, TimeUnit.SECONDS), "the decoder took more than a minute");
        assertEquals(0, decoder.exitValue(), said);
    }

    @Test
    void aRateThatIsNotWholeIsRefused() throws IOException {
        SampleSource source = new ArraySource("odd", 8000.5, null, new double[10]);
        IOException refusal =
                assertThrows(IOException.class, () -> new FlacWriter(16).write(source, folder.resolve("odd.flac")));
        assertTrue(refusal.getMessage().contains("8000.5 Hz"), refusal.getMessage());
    }

    /** A recording of these values; a second channel is the first one the other way round. */
    private SampleSource wav(double[] signal, int bits, int channels) throws IOException {
        byte[] data = new byte[signal.length * channels * bits / 8];
        int at = 0;
        for (double value : signal) {
            for (int c = 0; c < channels; c++) {
                int step = PcmSteps.of(c == 0 ? value : -value, bits);
                for (int shift = 0; shift < bits; shift += 8) {
                    data[at++] = (byte) (step >> shift);
                }
            }
        }
        Path file = folder.resolve("plain.wav");
        Files.write(
                file,
                new WavBytes()
                        .format(1, channels, 48_000, bits)
                        .chunk("data", data)
                        .bytes());
        return PcmSource.openWav(file, "plain.wav");
    }
}
