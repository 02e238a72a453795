package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;

/** Lists of edges, as logic recorders write them: the speed comes from the edges themselves. */
class EdgeListTruthTest {
    @TempDir
    Path folder;

    /** Rows at the times at which the tacho's phase passes 0 and the duty, found by bisection. */
    private SampleSource edges(DrawnSpeed speed, double duty, String head, int decimals) throws IOException {
        StringBuilder text = new StringBuilder(head);
        int cycles = (int) Math.floor(8 * speed.turns(10));
        for (int i = 0; i < 2 * cycles; i++) {
            double phase = i / 2 + (i % 2 == 0 ? 0 : duty);
            double low = 0;
            double high = 10.5;
            for (int step = 0; step < 60; step++) {
                double middle = 0.5 * (low + high);
                low = 8 * speed.turns(middle) < phase ? middle : low;
                high = 8 * speed.turns(middle) < phase ? high : middle;
            }
            text.append(String.format(Locale.ROOT, "%." + decimals + "f,%d%n", low, 1 - i % 2));
        }
        Path file = folder.resolve("edges.csv");
        Files.writeString(file, text);
        return Recordings.open(file, "edges.csv", ReadOptions.NONE);
    }

    @ParameterizedTest(name = "duty {0}")
    @ValueSource(doubles = {0.5, 0.15, 0.8})
    void theSpeedIsThatOfTheEdges(double duty) throws IOException {
        SampleSource source = edges(DrawnSpeed.level(913), duty, "Time [s],Channel 0\n", 8);
        assertEquals("list of edges", source.format().encoding());
        Rotation rotation = Analysed.rotation(source);
        assertEquals(913, rotation.speed().meanRpm(), 20e-6 * 913);
        assertTrue(
                rotation.ripple().orElseThrow().rmsPercent() < 0.05,
                rotation.ripple().toString());
    }

    @Test
    void rippleAndBlipsComeThrough() throws IOException {
        DrawnSpeed speed = DrawnSpeed.level(1700).line(7, 0.6, 0.2).blip(5, 0.02, 4, 0.2);
        Rotation rotation = Analysed.rotation(edges(speed, 0.5, "Time [s],Channel 0\n", 7));
        assertEquals(7, rotation.spectrum().lines().get(0).frequencyHz(), 0.02);
        assertEquals(0.6, rotation.spectrum().lines().get(0).amplitudePercent(), 0.03);
        assertEquals(1, rotation.blips().orElseThrow().events().size());
    }

    @Test
    void anEvenlySampledLogicChannelIsNoListOfEdges() throws IOException {
        StringBuilder text = new StringBuilder("Time [s],Channel 0\n");
        for (int i = 0; i < 8000; i++) {
            text.append(String.format(Locale.ROOT, "%.4f,%d%n", i / 4000.0, (int) (i / 4000.0 * 2 * 150.3) % 2));
        }
        Path file = folder.resolve("even.csv");
        Files.writeString(file, text);
        SampleSource source = Recordings.open(file, "even.csv", ReadOptions.NONE);
        assertEquals(4000, source.sampleRateHz(), 0.01);
        assertEquals(150.3 * 7.5, Analysed.rotation(source).speed().meanRpm(), 1);
    }
}
