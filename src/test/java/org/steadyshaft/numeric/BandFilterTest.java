package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The moving band-pass on signals whose filtered form is known. Every output sample is compared with the signal at the
 * sample's own time: a phase shift, a wrong time (one input sample is 0.15 rad here) or a wrong level all show. Allowed is
 * 1e-3 of the amplitude, away from the edges by one frame.
 */
class BandFilterTest {
    private static final double RATE_HZ = 8000;
    private static final double CENTRE_HZ = 200;
    private static final int FRAME = 2048;
    private static final int SAMPLES = 20_011;
    private static final double AMPLITUDE = 0.8;
    private static final double ALLOWED = 1e-3 * AMPLITUDE;

    @ParameterizedTest
    @CsvSource({
        "0.5, 1",
        "0.7, 1",
        "1, 1",
        "1.2, 1",
        "1.45, 1",
        "0.5, 0.25",
        "1, 0.25",
        "1.45, 0.25",
        "1, 0.125",
        "1.45, 0.125",
        "0.5, 4",
        "1, 4",
        "1.45, 4",
        "1, 2",
        "1, 32"
    })
    void toneInTheBandKeepsPhaseAndAmplitude(double share, double rateFactor) {
        DoubleUnaryOperator tone = tone(share * CENTRE_HZ, 0.7);
        Output output = filter(tone, rateFactor, time -> CENTRE_HZ);
        assertNear(tone, output);
    }

    /** The shortest frame that the class allows for: 16 periods of the centre. */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 1.45})
    void shortestFrameWillDo(double share) {
        double centreHz = 16 * RATE_HZ / FRAME;
        DoubleUnaryOperator tone = tone(share * centreHz, 2.1);
        assertNear(tone, filter(tone, 0.25, time -> centreHz));
    }

    @ParameterizedTest
    @CsvSource({
        "0, 1", "0.04, 1", "2, 1", "2.3, 1", "3, 1", "7.1, 1", "0, 0.25", "2, 0.25", "4, 0.25", "6, 0.25", "9, 0.25",
        "0, 4", "2, 4", "19, 4"
    })
    void toneOutsideIsGone(double share, double rateFactor) {
        assertNear(time -> 0, filter(tone(share * CENTRE_HZ, 0), rateFactor, time -> CENTRE_HZ));
    }

    /** Half way up the lower edge and half way down the upper one half the amplitude is left, still in phase. */
    @ParameterizedTest
    @ValueSource(doubles = {0.25, 1.725})
    void edgesFallWithoutShiftingThePhase(double share) {
        DoubleUnaryOperator tone = tone(share * CENTRE_HZ, -0.4);
        assertEquals(0.5, BandFilter.gain(share), 1e-12);
        assertNear(time -> 0.5 * tone.applyAsDouble(time), filter(tone, 0.25, time -> CENTRE_HZ));
    }

    /** The fundamental comes out alone from a signal with strong harmonics, an offset and a tone far above. */
    @ParameterizedTest
    @ValueSource(doubles = {0.25, 1, 4})
    void fundamentalIsCutOut(double rateFactor) {
        DoubleUnaryOperator fundamental = tone(CENTRE_HZ, 0.7);
        DoubleUnaryOperator others = time -> 0.5
                + tone(2 * CENTRE_HZ, 1).applyAsDouble(time)
                + tone(3 * CENTRE_HZ, 2).applyAsDouble(time)
                + tone(3100, 3).applyAsDouble(time);
        DoubleUnaryOperator all = time -> fundamental.applyAsDouble(time) + others.applyAsDouble(time);
        Output output = filter(all, rateFactor, time -> CENTRE_HZ);
        assertNear(fundamental, output);
    }

    /** A sweep that runs a tenth of its frequency up in a frame, from 120 to 240 Hz, with a band that follows it. */
    @ParameterizedTest
    @ValueSource(doubles = {0.25, 1, 4})
    void bandFollowsAFastSweep(double rateFactor) {
        DoubleUnaryOperator sweep = sweep(120, 240, 1);
        assertNear(sweep, filter(sweep, rateFactor, time -> 120 + 120 * time * RATE_HZ / SAMPLES));
    }

    /** From 150 to 200 Hz the second harmonic of the sweep stays above the moving band. */
    @ParameterizedTest
    @ValueSource(doubles = {0.25, 1, 4})
    void bandFollowsASweepAndLeavesItsHarmonicOut(double rateFactor) {
        DoubleUnaryOperator sweep = sweep(150, 200, 1);
        DoubleUnaryOperator harmonic = sweep(150, 200, 2);
        DoubleUnaryOperator both = time -> sweep.applyAsDouble(time) + harmonic.applyAsDouble(time);
        assertNear(sweep, filter(both, rateFactor, time -> 150 + 50 * time * RATE_HZ / SAMPLES));
    }

    @Test
    void noBandGivesSilence() {
        double[] out = filter(tone(CENTRE_HZ, 0), 1, time -> 0).samples();
        assertEquals(SAMPLES, out.length);
        assertArrayEquals(new double[SAMPLES], out);
    }

    /** The band is asked for at the middle of each frame: silence up to 1 s fades into the tone within half a frame. */
    @Test
    void bandIsTakenAtTheMiddleOfTheFrame() {
        DoubleUnaryOperator tone = tone(CENTRE_HZ, 0.7);
        Output output = filter(tone, 1, time -> time < 1 ? 0 : CENTRE_HZ);
        int change = (int) RATE_HZ;
        for (int i = FRAME; i < SAMPLES - FRAME; i++) {
            double found = output.samples()[i];
            if (i < change - FRAME) {
                assertEquals(0, found, ALLOWED, "sample " + i);
            } else if (i > change + FRAME) {
                assertEquals(tone.applyAsDouble(i / RATE_HZ), found, ALLOWED, "sample " + i);
            }
        }
    }

    /** The stream comes out whole and in order whatever its length and however it is cut into blocks. */
    @ParameterizedTest
    @ValueSource(doubles = {0.0625, 0.25, 1, 2})
    void outputIsWholeAndDoesNotDependOnTheBlocks(double rateFactor) {
        int frame = 128;
        for (int samples : new int[] {1, 63, 64, 65, 127, 128, 129, 191, 192, 193, 1000, 1001, 4096}) {
            double[] stream = new Random(samples).doubles(samples, -1, 1).toArray();
            double[] whole =
                    run(stream, samples, frame, rateFactor, time -> 900).samples();
            double[] pieces = run(stream, 37, frame, rateFactor, time -> 900).samples();
            assertEquals((int) Math.ceil(samples * rateFactor), whole.length, "output samples for " + samples);
            assertArrayEquals(whole, pieces);
        }
    }

    @Test
    void outputRateIsStated() {
        BandFilter filter = new BandFilter(44100, 1024, 0.125, 5000, time -> 100, (samples, count, first) -> {});
        assertEquals(5512.5, filter.outputRateHz());
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "0.05, 0", "0.45, 1", "1, 1", "1.5, 1", "1.95, 0", "5, 0"})
    void gainAtTheCorners(double share, double gain) {
        assertEquals(gain, BandFilter.gain(share), 1e-12);
    }

    @Test
    void gainRisesOnceAndFallsOnceWithoutJumps() {
        double before = 0;
        for (int i = 1; i <= 2500; i++) {
            double gain = BandFilter.gain(i / 1000.0);
            assertTrue(gain >= 0 && gain <= 1, "gain " + gain);
            assertTrue(i <= 1000 ? gain >= before : gain <= before, "at share " + i / 1000.0);
            assertEquals(before, gain, 0.005, "at share " + i / 1000.0);
            before = gain;
        }
    }

    private record Output(double rateHz, double[] samples) {}

    private static DoubleUnaryOperator tone(double frequencyHz, double phase) {
        return time -> AMPLITUDE * Math.cos(2 * Math.PI * frequencyHz * time + phase);
    }

    /** A harmonic of a tone whose frequency rises steadily over the whole signal. */
    private static DoubleUnaryOperator sweep(double fromHz, double toHz, int harmonic) {
        double riseHzASecond = (toHz - fromHz) * RATE_HZ / SAMPLES;
        return time -> AMPLITUDE
                * Math.sin(harmonic * 2 * Math.PI * (fromHz * time + 0.5 * riseHzASecond * time * time) + harmonic);
    }

    /** Compares each output sample with the expected signal at its time, a frame away from both ends. */
    private static void assertNear(DoubleUnaryOperator expected, Output output) {
        double endSeconds = (SAMPLES - FRAME) / RATE_HZ;
        int checked = 0;
        for (int i = 0; i < output.samples().length; i++) {
            double time = i / output.rateHz();
            if (time > FRAME / RATE_HZ && time < endSeconds) {
                assertEquals(expected.applyAsDouble(time), output.samples()[i], ALLOWED, "at " + time + " s");
                checked++;
            }
        }
        double span = endSeconds - FRAME / RATE_HZ;
        assertEquals(span * output.rateHz(), checked, 1.5, "samples checked");
    }

    private static Output filter(DoubleUnaryOperator signal, double rateFactor, BandFilter.Bands bands) {
        double[] stream = new double[SAMPLES];
        Arrays.setAll(stream, i -> signal.applyAsDouble(i / RATE_HZ));
        Output output = run(stream, 1000, FRAME, rateFactor, bands);
        assertEquals(RATE_HZ * rateFactor, output.rateHz(), "output rate");
        return output;
    }

    private static Output run(double[] stream, int block, int frame, double rateFactor, BandFilter.Bands bands) {
        double[] out = new double[(int) Math.ceil(stream.length * rateFactor)];
        long[] next = {0};
        BandFilter filter =
                new BandFilter(RATE_HZ, frame, rateFactor, stream.length, bands, (samples, count, first) -> {
                    assertEquals(next[0], first, "the pieces join");
                    System.arraycopy(samples, 0, out, (int) first, count);
                    next[0] += count;
                });
        for (int from = 0; from < stream.length; from += block) {
            int count = Math.min(block, stream.length - from);
            filter.add(Arrays.copyOfRange(stream, from, from + count), count);
        }
        filter.finish();
        assertEquals(out.length, next[0], "samples handed out");
        return new Output(filter.outputRateHz(), out);
    }
}
