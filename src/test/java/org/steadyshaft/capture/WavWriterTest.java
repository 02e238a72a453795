package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

class WavWriterTest {
    @TempDir
    private Path folder;

    private static SampleSource tacho(double rpm, double seconds) {
        return new DrawnTacho(
                "drawn", DrawnSpeed.level(rpm), Settings.clean(8000, seconds).withNoise(0.01, 3));
    }

    private SampleSource written(int bits, SampleSource source) throws IOException {
        Path file = folder.resolve("out.wav");
        new WavWriter(bits).write(source, file);
        return Recordings.open(file, "out.wav", ReadOptions.NONE);
    }

    @ParameterizedTest
    @ValueSource(ints = {16, 24})
    void what_was_written_is_read_back_within_half_a_step(int bits) throws IOException {
        SampleSource source = tacho(1200, 1.2);
        SampleSource back = written(bits, source);

        assertEquals("PCM " + bits + " bit", back.format().encoding());
        assertEquals(8000, back.sampleRateHz());
        assertEquals(9600, back.samples());
        assertEquals(0, back.remarks().size());
        assertArrayEquals(
                ReadBack.channel(source, 0), ReadBack.channel(back, 0), 0.5000001 * Math.scalb(1.0, 1 - bits));
    }

    @ParameterizedTest
    @ValueSource(ints = {16, 24})
    void what_is_beyond_full_scale_is_clipped(int bits) throws IOException {
        SampleSource source = tacho(4000, 0.5);
        double[] expected = ReadBack.channel(source, 0);
        double step = Math.scalb(1.0, 1 - bits);
        int clipped = 0;
        double[] back = ReadBack.channel(written(bits, source), 0);
        for (int i = 0; i < back.length; i++) {
            double limited = Math.max(-1, Math.min(1 - step, expected[i]));
            clipped += limited == expected[i] ? 0 : 1;
            assertEquals(limited, back[i], 0.5000001 * step);
        }
        assertEquals(true, clipped > 1000, clipped + " clipped");
    }

    /** An odd number of bytes is followed by a pad byte, and the sizes in the header are those of the file. */
    @Test
    void sizes_in_the_header_are_right() throws IOException {
        Path file = folder.resolve("odd.wav");
        new WavWriter(24).write(tacho(1200, 3 / 8000.0), file);
        byte[] bytes = Files.readAllBytes(file);

        assertEquals(44 + 9 + 1, bytes.length);
        assertEquals(bytes.length - 8, bytes[4]);
        assertEquals(9, bytes[40]);
        assertEquals(3, PcmSource.openWav(file, "odd.wav").samples());
    }

    @Test
    void channels_stay_apart() throws IOException {
        SampleSource two = new WavBytes()
                .format(1, 2, 44_100, 16)
                .chunk("data", WavBytes.shorts(1, -2, 3, -4, 5, -6))
                .in(folder);

        assertArrayEquals(ReadBack.all(two, 2), ReadBack.all(written(24, two), 3));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 8, 32, -16})
    void other_bits_are_refused(int bits) {
        assertThrows(IllegalArgumentException.class, () -> new WavWriter(bits));
    }
}
