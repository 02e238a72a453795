package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SampleSource;

/** Layouts that cheap scopes and loggers are known to write, told by how they look and never by who wrote them. */
class TextOddLayoutTest {
    private static final int ROWS = 500;
    private static final double RATE_HZ = 50000;

    @TempDir
    Path folder;

    private static double wave(int row) {
        return 2.5 * Math.sin(0.05 * row);
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private SampleSource open(String above, IntFunction<String> row) throws IOException {
        StringBuilder text = new StringBuilder(above);
        for (int i = 0; i < ROWS; i++) {
            text.append(row.apply(i)).append('\n');
        }
        Path file = folder.resolve("odd.txt");
        Files.writeString(file, text, StandardCharsets.UTF_8);
        return Recordings.open(file, "odd.txt", ReadOptions.NONE);
    }

    private static void assertWave(SampleSource source, double tolerance) throws IOException {
        assertEquals(RATE_HZ, source.sampleRateHz(), 1e-3 * RATE_HZ);
        double[] read = ReadBack.channel(source, 0);
        assertEquals(ROWS, read.length);
        for (int i = 0; i < ROWS; i++) {
            assertEquals(wave(i), read[i], tolerance, "row " + i);
        }
    }

    @Test
    void anIndexWithStartAndIncrementInTheHeader() throws IOException {
        assertWave(
                open("X,CH1,Start,Increment\nSequence,Volt,-1.0e-3,2.0e-5\n", i -> say("%d,%.5f", i, wave(i))), 1e-5);
    }

    @Test
    void anIntervalAsTextWithItsUnit() throws IOException {
        assertWave(
                open("Record : 500\nSample interval : 20.00uS\nVoltage(mV)\n", i -> say("%.2f", 1000 * wave(i))), 1e-4);
    }

    @Test
    void numbersWithSignsZerosAndLongExponents() throws IOException {
        assertWave(open("second,Volt\n", i -> say("%+.6fE-003,%s", 0.02 * i, say("%+.6fE+000", wave(i)))), 1e-5);
        assertWave(open("second,Volt\n", i -> say("%.6f,%s", i / RATE_HZ, say("%08.3f", wave(i)))), 1e-3);
    }

    @Test
    void twoHeaderRowsAndEmptyColumnsAtTheEnd() throws IOException {
        assertWave(
                open("Time,Channel A,,\n(ms),(mV),,\n\n", i -> say("%.5f,%.4f,,", 1000 * i / RATE_HZ, 1000 * wave(i))),
                1e-5);
    }

    @Test
    void stampsThatContradictTheHeaderAreTold() throws IOException {
        SampleSource source =
                open("Sample Interval,1.0e-5\nTime (s),Tacho (V)\n", i -> say("%.6f,%.4f", i / RATE_HZ, wave(i)));
        assertWave(source, 1e-4);
        assertEquals(1, source.remarks().size());
        assertTrue(
                source.remarks().get(0).contains("the header says 1.00000e-05 s"),
                source.remarks().toString());
    }

    @Test
    void aMathsColumnIsAChannelOfItsOwn() throws IOException {
        SampleSource source = open(
                "Time (s),CH1 (V),CH2 (V),MATH1 (V)\n",
                i -> say("%.6f,%.4f,0.02,%.4f", i / RATE_HZ, wave(i), wave(i) + 0.02));
        assertEquals(3, source.channels());
        assertEquals("MATH1 (V)", source.channelName(2));
        assertWave(source, 1e-4);
    }

    @Test
    void aDecimalCommaWithTabs() throws IOException {
        assertWave(
                open(
                        "Zeit [ms]\tKanal A [V]\n",
                        i -> say("%.5f\t%.4f", 1000 * i / RATE_HZ, wave(i)).replace('.', ',')),
                1e-4);
    }

    @ParameterizedTest
    @ValueSource(strings = {"Tacho\n", "Tacho (V)\n", ""})
    void voltagesAloneNameTheOptionThatHelps(String above) {
        String message = assertThrows(CaptureException.class, () -> open(above, i -> say("%.4f", wave(i))))
                .getMessage();
        assertTrue(message.contains("--sample-rate"), message);
    }
}
