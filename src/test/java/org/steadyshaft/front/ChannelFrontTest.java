package org.steadyshaft.front;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import java.util.function.LongToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.KeptWaveform;

class ChannelFrontTest {
    private static final double RATE_HZ = 48000;
    private static final double MAINS_HZ = 50;

    private static ChannelFront front(double seconds, boolean opensAnywhere, LongToDoubleFunction value)
            throws IOException {
        MadeSource source = new MadeSource(RATE_HZ, Math.round(seconds * RATE_HZ), opensAnywhere, value);
        return ChannelFront.of(source, 0, 1, MAINS_HZ).get(0);
    }

    private static double sine(double hz, long sample) {
        return Math.sin(2 * Math.PI * hz * sample / RATE_HZ);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void theWaveformStandsAtTheLowerRateWithoutDelay(boolean opensAnywhere) throws IOException {
        ChannelFront front = front(20, opensAnywhere, i -> 0.5 * sine(187.3, i) + 0.02 * sine(19000, i));
        KeptWaveform kept = front.waveform();
        assertEquals(8, front.plan().factor());
        assertEquals(6000, kept.rateHz());
        assertEquals(20, kept.durationSeconds(), 1e-9);
        double[] values = new double[(int) kept.samples()];
        kept.read(0, values, values.length);
        for (int k = 20; k < values.length - 20; k++) {
            assertEquals(0.5 * Math.sin(2 * Math.PI * 187.3 * kept.timeSeconds(k)), values[k], 1e-6, "sample " + k);
        }
    }

    /** The rate stays high enough for the fastest tacho there is, whatever stands beside it. */
    @ParameterizedTest
    @CsvSource({
        "1000, 0, 1",
        "3000, 0, 1",
        "5000, 0, 1",
        "3000, 0.9, 0.1",
        "1500, 0.9, 0.05",
        "2000, 0, 0.002",
        "5600, 0.5, 0.1"
    })
    void aFastTachoKeepsTheRateHighAlsoBesideHum(double hz, double hum, double level) throws IOException {
        Random random = new Random(1);
        double[] noise = random.doubles(4096, -0.0005, 0.0005).toArray();
        ChannelFront front =
                front(30, true, i -> level * sine(hz, i) + hum * sine(MAINS_HZ, i) + noise[(int) ((i * 7919) % 4096)]);
        assertTrue(
                front.waveform().cleanHz() > hz, "clean to " + front.waveform().cleanHz() + " Hz");
    }

    /** A runaway of half a second between the places that the pilot looks at. */
    @ParameterizedTest
    @ValueSource(doubles = {20.37, 33.1, 71.9})
    void whatHappensBetweenThePilotsPlacesIsLookedAtToo(double fromSeconds) throws IOException {
        ChannelFront front = front(120, true, i -> {
            double t = i / RATE_HZ;
            boolean away = t > fromSeconds && t < fromSeconds + 0.5;
            return away ? 0.9 * sine(2400, i) : 0.1 * sine(160, i);
        });
        assertTrue(
                front.waveform().cleanHz() > 2400,
                "clean to " + front.waveform().cleanHz() + " Hz");
    }

    @Test
    void needlesAloneDoNotKeepTheRateHigh() throws IOException {
        ChannelFront front = front(60, true, i -> 0.5 * sine(160, i) + (i % 480 < 2 ? 0.5 : 0));
        assertTrue(front.plan().factor() >= 4, front.plan().toString());
    }

    @Test
    void noiseAloneLeavesRoomForTheHighestTacho() throws IOException {
        Random random = new Random(2);
        double[] noise = random.doubles(1 << 20, -1, 1).toArray();
        ChannelFront front = front(20, true, i -> noise[(int) i % noise.length]);
        assertTrue(
                front.waveform().cleanHz() >= 6000,
                "clean to " + front.waveform().cleanHz() + " Hz");
    }

    /** Pieces that are made again hold the very values that would have been kept. */
    @Test
    void piecesMadeAgainAreTheSame() throws IOException {
        MadeSource source = new MadeSource(RATE_HZ, 3_000_000, true, i -> 0.5 * sine(187.3, i));
        for (RatePlan plan : List.of(new RatePlan(8, 1), new RatePlan(8, 2), new RatePlan(2, 1), RatePlan.FULL_RATE)) {
            KeptWaveform kept =
                    new FrontPass(source, 0, List.of(plan)).run().get(0).waveform();
            KeptWaveform remade =
                    new FrontPass(source, 0, List.of(plan), 0).run().get(0).waveform();
            double[] a = new double[50_000];
            double[] b = new double[50_000];
            for (long from = -1000; from < kept.samples(); from += 49_000) {
                kept.read(from, a, a.length);
                remade.read(from, b, b.length);
                assertArrayEquals(a, b, plan + " from " + from);
            }
        }
    }

    @Test
    void aRecordingWithoutSamplesIsNone() throws IOException {
        assertEquals(0, front(0, true, i -> 0).levels().samples());
    }
}
