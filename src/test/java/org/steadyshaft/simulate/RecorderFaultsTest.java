package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.ArraySource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.RecorderFaults.Fault;
import org.steadyshaft.simulate.RecorderFaults.Kind;

/** Each fault does what it says and nothing beside; the number of samples is that which is told. */
class RecorderFaultsTest {
    private static final double RATE = 1000;
    private static final SampleFormat FORMAT = new SampleFormat(
            "made",
            "numbers",
            "V",
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            SampleFormat.RecorderKind.SOUND_CARD);

    private static double[] rising(int count) {
        return IntStream.range(0, count).mapToDouble(i -> i + 1).toArray();
    }

    private static double[] with(double[] values, int block, Fault... faults) throws IOException {
        SampleSource source = new RecorderFaults(new ArraySource("made", RATE, FORMAT, values), List.of(faults), 50, 7);
        double[] all = new double[values.length + 10_000];
        int size = 0;
        try (BlockReader in = source.open()) {
            double[][] part = new double[1][block];
            for (int count = in.read(part); count > 0; count = in.read(part)) {
                System.arraycopy(part[0], 0, all, size, count);
                size += count;
            }
        }
        assertEquals(source.samples(), size);
        return Arrays.copyOf(all, size);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 4096, 9000})
    void lostAndDoubledSamples(int block) throws IOException {
        double[] read = with(
                rising(6000),
                block,
                new Fault(Kind.LOST_SAMPLES, 1, 0, 300),
                new Fault(Kind.DOUBLED_SAMPLES, 5, 0, 200));
        double[] expected = IntStream.concat(
                        IntStream.concat(IntStream.range(0, 1000), IntStream.range(1300, 5000)),
                        IntStream.concat(IntStream.range(4800, 5000), IntStream.range(5000, 6000)))
                .mapToDouble(i -> i + 1)
                .toArray();
        assertArrayEquals(expected, read);
    }

    @Test
    void whatIsLostBeyondTheEndIsNotThere() throws IOException {
        assertEquals(900, with(rising(1000), 64, new Fault(Kind.LOST_SAMPLES, 0.9, 0, 500)).length);
        assertEquals(1000, with(rising(1000), 64, new Fault(Kind.LOST_SAMPLES, 3, 0, 500)).length);
    }

    @Test
    void stepsLastToTheEnd() throws IOException {
        double[] read = with(
                new double[] {1, 1, 1, 1},
                3,
                new Fault(Kind.LEVEL_STEP, 0.001, 0, 0.5),
                new Fault(Kind.OFFSET_STEP, 0.002, 0, 10));
        assertArrayEquals(new double[] {1, 1.5, 11.5, 11.5}, read, 1e-12);
    }

    @Test
    void aCrackleAndAnOpenLeadLastAsLongAsTheySay() throws IOException {
        double[] read = with(
                rising(10), 4, new Fault(Kind.CRACKLE, 0.002, 0.003, 0.5), new Fault(Kind.OPEN_LEAD, 0.007, 0.002, 0));
        assertArrayEquals(new double[] {1, 2, 1.5, 2, 2.5, 6, 7, 0, 0, 10}, read, 1e-12);
    }

    @Test
    void aBurstHasItsRmsAndTheSameSeedGivesTheSame() throws IOException {
        Fault burst = new Fault(Kind.NOISE_BURST, 0, 100, 0.3);
        double[] read = with(new double[50_000], 1000, burst);
        double square = Arrays.stream(read).map(v -> v * v).average().orElseThrow();
        assertEquals(0.3, Math.sqrt(square), 0.005);
        assertArrayEquals(read, with(new double[50_000], 77, burst));
    }

    @Test
    void theHumStandsAtTheMains() throws IOException {
        double[] read = with(new double[1000], 100, new Fault(Kind.HUM_STEP, 0.5, 0, 0.2));
        double[] expected = IntStream.range(0, 1000)
                .mapToDouble(i -> i < 500 ? 0 : 0.2 * Math.sin(2 * Math.PI * 50 * i / RATE))
                .toArray();
        assertArrayEquals(expected, read, 1e-9);
    }
}
