package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/** Bad recordings: each fault is named, and what does not turn gets no speed. */
class ConditionTruthTest {
    private static final double RATE_HZ = 16000;
    private static final double SECONDS = 8;

    /** A recording of 16 bits made of one formula a channel. */
    private static SampleSource formula(DoubleUnaryOperator... channels) {
        return new Formula(List.of(channels));
    }

    private record Formula(List<DoubleUnaryOperator> formulas) implements SampleSource {
        @Override
        public String name() {
            return "formula";
        }

        @Override
        public double sampleRateHz() {
            return RATE_HZ;
        }

        @Override
        public long samples() {
            return (long) (RATE_HZ * SECONDS);
        }

        @Override
        public int channels() {
            return formulas.size();
        }

        @Override
        public String channelName(int channel) {
            return Integer.toString(channel + 1);
        }

        @Override
        public SampleFormat format() {
            return new SampleFormat(
                    "made",
                    "16 bit",
                    "FS",
                    OptionalDouble.of(1),
                    OptionalDouble.of(1 / 32768.0),
                    SampleFormat.RecorderKind.SOUND_CARD);
        }

        @Override
        public List<String> remarks() {
            return List.of();
        }

        @Override
        public BlockReader open() {
            return new BlockReader() {
                private long at;

                @Override
                public int read(double[][] block) {
                    int count = (int) Math.min(block[0].length, samples() - at);
                    for (int i = 0; i < count; i++, at++) {
                        for (int c = 0; c < block.length; c++) {
                            double value = formulas.get(c).applyAsDouble(at / RATE_HZ);
                            block[c][i] = Math.max(-32768, Math.min(32767, Math.rint(32768 * value))) / 32768;
                        }
                    }
                    return count;
                }

                @Override
                public void close() {
                    // nothing is held open
                }
            };
        }
    }

    private static DoubleUnaryOperator tone(double hz, double peak) {
        return t -> peak * Math.sin(2 * Math.PI * hz * t);
    }

    private static DoubleUnaryOperator noise(long seed, double rms) {
        Random random = new Random(seed);
        return t -> rms * random.nextGaussian();
    }

    private static boolean has(Outcome.Analysed outcome, FindingCode code) {
        return outcome.findings().stream().map(Finding::code).anyMatch(c -> c == code);
    }

    private static void assertNoSpeed(Outcome.Analysed outcome) {
        assertEquals(Grade.UNUSABLE, outcome.grade(), outcome.findings().toString());
        assertTrue(has(outcome, FindingCode.NO_ROTATION), outcome.findings().toString());
        assertTrue(outcome.rotation().isEmpty());
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void noiseGivesNoSpeed(long seed) {
        assertNoSpeed(Analysed.of(formula(noise(seed, 0.2))));
        assertNoSpeed(Analysed.of(formula(noise(seed, 0.00003))));
    }

    @Test
    void silenceGivesNoSpeed() {
        assertNoSpeed(Analysed.of(formula(t -> 0)));
        assertNoSpeed(Analysed.of(formula(t -> 0.25)));
    }

    @ParameterizedTest(name = "{0} Hz")
    @ValueSource(doubles = {49.9, 50, 50.1, 100.04})
    void pureMainsPickUpGivesNoSpeed(double hz) {
        DoubleUnaryOperator rough = noise(5, 0.001);
        assertNoSpeed(Analysed.of(formula(t -> 0.3 * Math.sin(2 * Math.PI * hz * t)
                + 0.05 * Math.sin(6 * Math.PI * hz * t)
                + rough.applyAsDouble(t))));
    }

    @Test
    void aCutWaveIsCalledClippedAndKeepsItsSpeed() {
        Outcome.Analysed outcome = Analysed.of(formula(tone(203.7, 1.6)));
        assertTrue(has(outcome, FindingCode.CLIPPED), outcome.findings().toString());
        assertEquals(203.7 * 60 / 8, outcome.rotation().orElseThrow().speed().meanRpm(), 0.01);
    }

    @Test
    void aWholeWaveIsNotCalledClipped() {
        assertFalse(has(Analysed.of(formula(tone(203.7, 0.99))), FindingCode.CLIPPED));
        assertFalse(has(Analysed.of(formula(tone(31.3, 0.01))), FindingCode.CLIPPED));
    }

    @Test
    void missingSamplesAreAGapAndNoBlip() {
        DoubleUnaryOperator tone = tone(160, 0.5);
        Outcome.Analysed zeros = Analysed.of(formula(t -> t > 3 && t < 3.05 ? 0 : tone.applyAsDouble(t)));
        Outcome.Analysed held =
                Analysed.of(formula(t -> t > 3 && t < 3.03 ? tone.applyAsDouble(3.0009) : tone.applyAsDouble(t)));
        for (Outcome.Analysed outcome : List.of(zeros, held)) {
            Finding gap = outcome.findings().stream()
                    .filter(f -> f.code() == FindingCode.GAP)
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(outcome.findings()));
            assertEquals(3, gap.where().orElseThrow().fromSeconds(), 0.002);
            assertEquals(
                    List.of(),
                    outcome.rotation().orElseThrow().blips().orElseThrow().events());
            assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.02);
        }
    }

    @Test
    void aFaintSignalIsCalledSo() {
        Outcome.Analysed outcome = Analysed.of(formula(tone(160, 0.0002)));
        assertTrue(has(outcome, FindingCode.LOW_LEVEL), outcome.findings().toString());
    }

    @Test
    void noiseNearTheTachoIsCalledSo() {
        DoubleUnaryOperator rough = noise(9, 0.06);
        Outcome.Analysed outcome =
                Analysed.of(formula(t -> 0.3 * Math.sin(2 * Math.PI * 160 * t) + rough.applyAsDouble(t)));
        assertTrue(has(outcome, FindingCode.LOW_SNR), outcome.findings().toString());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 1);
    }

    @Test
    void anOffsetIsNotedAndTakenOut() {
        Outcome.Analysed outcome = Analysed.of(formula(t -> 0.4 + 0.3 * Math.sin(2 * Math.PI * 160 * t)));
        assertTrue(has(outcome, FindingCode.OFFSET), outcome.findings().toString());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.02);
    }

    @Test
    void theChannelThatTurnsIsFoundNotTheLoudest() {
        DoubleUnaryOperator loud = noise(3, 0.3);
        Outcome.Analysed outcome = Analysed.of(formula(loud, tone(50, 0.9), tone(160, 0.02)));
        assertEquals("3", outcome.source().channel());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.05);
    }

    @Test
    void aTenfoldChangeOfLevelCostsAFewCycles() {
        Outcome.Analysed outcome = Analysed.of(formula(t -> (t < 4 ? 0.5 : 0.05) * Math.sin(2 * Math.PI * 160 * t)));
        // six or seven cycles go at the ends of every recording
        assertEquals(160 * SECONDS, outcome.rotation().orElseThrow().speed().cycles(), 7 + 4);
    }
}
