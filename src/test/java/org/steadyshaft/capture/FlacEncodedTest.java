package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;

/** WAV files coded by the encoder of another maker, where it is installed: each must be read as the WAV itself is. */
class FlacEncodedTest {
    private static final Path ENCODER = Path.of("/usr/bin/flac");

    private static final List<String> OPTIONS = List.of(
            "-0", "-5", "-8", "-8 -e -p", "--lax -b 16384 -l 32", "-5 -b 17 --lax", "-5 -M -r 8", "--lax -b 65535 -8");

    @TempDir
    private Path folder;

    @BeforeEach
    void encoderIsInstalled() {
        assumeTrue(Files.isExecutable(ENCODER), ENCODER + " is not installed, so there is nothing to compare with");
    }

    /** Signals of full scale 1; lengths that end inside a block, and shorter than any prediction. */
    private enum Signal {
        TACHO(30_000),
        SILENCE(20_000),
        SQUARE(20_000),
        NOISE(20_000),
        ONE_SAMPLE(1),
        THREE_SAMPLES(3);

        private final int samples;

        Signal(int samples) {
            this.samples = samples;
        }

        double[] draw(int rateHz) throws IOException {
            Random random = new Random(5);
            double[] drawn = new double[samples];
            for (int i = 0; i < samples; i++) {
                drawn[i] = switch (this) {
                    case SILENCE -> 0;
                    case SQUARE -> i / 50 % 2 == 0 ? 1 : -1;
                    default -> 2 * random.nextDouble() - 1;
                };
            }
            if (this == TACHO) {
                DrawnTacho.Settings settings = DrawnTacho.Settings.clean(rateHz, (samples + 0.5) / rateHz)
                        .withNoise(0.003, 2);
                DrawnTacho tacho = new DrawnTacho("drawn", DrawnSpeed.level(900).line(10, 2, 0), settings);
                System.arraycopy(ReadBack.channel(tacho, 0), 0, drawn, 0, samples);
            }
            return drawn;
        }
    }

    static List<Arguments> cases() {
        List<Arguments> cases = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            for (int bits : new int[] {8, 16, 24}) {
                for (int channels : new int[] {1, 2}) {
                    cases.add(Arguments.of(signal, bits, channels, bits == 24 ? 192_000 : 48_000));
                }
            }
        }
        return cases;
    }

    @ParameterizedTest
    @MethodSource("cases")
    void coded_and_plain_are_the_same(Signal signal, int bits, int channels, int rateHz) throws Exception {
        Path plain = wav(signal.draw(rateHz), bits, channels, rateHz);
        SampleSource expected = PcmSource.openWav(plain, "plain.wav");
        for (String options : OPTIONS) {
            SampleSource coded = FlacSource.open(encode(plain, options), "coded.flac");
            assertEquals(List.of(), coded.remarks(), options);
            assertEquals(expected.sampleRateHz(), coded.sampleRateHz(), options);
            assertEquals(expected.samples(), coded.samples(), options);
            assertEquals(expected.format().step(), coded.format().step(), options);
            assertArrayEquals(ReadBack.all(expected, 8192), ReadBack.all(coded, 8192), options);
        }
    }

    /** A rate that has no code of its own stands in the frames in 8 or 16 bits, or only in the header of the file. */
    @ParameterizedTest
    @ValueSource(
            ints = {
                8000, 11_025, 16_000, 22_050, 24_000, 32_000, 44_100, 88_200, 96_000, 176_400, 250_000, 655_350, 12_345
            })
    void every_rate(int rateHz) throws Exception {
        Path plain = wav(Signal.THREE_SAMPLES.draw(rateHz), 16, 1, rateHz);
        SampleSource coded = FlacSource.open(encode(plain, "--lax"), "coded.flac");
        assertEquals(rateHz, coded.sampleRateHz());
        assertArrayEquals(ReadBack.all(PcmSource.openWav(plain, "plain.wav"), 10), ReadBack.all(coded, 10));
    }

    /** The second channel is the first, weaker and the other way round, so that differences pay. */
    private Path wav(double[] signal, int bits, int channels, int rateHz) throws IOException {
        double scale = Math.scalb(1.0, bits - 1);
        byte[] data = new byte[signal.length * channels * bits / 8];
        int at = 0;
        for (double value : signal) {
            for (int c = 0; c < channels; c++) {
                long whole = Math.round(value * (c == 0 ? 1 : -0.9) * scale);
                whole = Math.max((long) -scale, Math.min((long) scale - 1, whole)) + (bits == 8 ? 128 : 0);
                for (int shift = 0; shift < bits; shift += 8) {
                    data[at++] = (byte) (whole >> shift);
                }
            }
        }
        Path file = folder.resolve("plain.wav");
        Files.write(
                file,
                new WavBytes()
                        .format(1, channels, rateHz, bits)
                        .chunk("data", data)
                        .bytes());
        return file;
    }

    private Path encode(Path wav, String options) throws IOException, InterruptedException {
        Path coded = folder.resolve("coded.flac");
        List<String> command = new ArrayList<>(List.of(ENCODER.toString(), "--silent", "--force"));
        command.addAll(List.of(options.split(" ")));
        command.addAll(List.of("-o", coded.toString(), wav.toString()));
        Process encoder = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("said.txt").toFile())
                .start();
        assertTrue(encoder.waitFor(60, TimeUnit.SECONDS), "the encoder took more than a minute");
        assertEquals(0, encoder.exitValue(), () -> said());
        return coded;
    }

    private String said() {
        try {
            return Files.readString(folder.resolve("said.txt"));
        } catch (IOException e) {
            return e.toString();
        }
    }
}
