package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;

/** Bad recordings: each fault is named, and what does not turn gets no speed. */
class ConditionTruthTest {
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
        assertNoSpeed(Analysed.of(Formula.of(Formula.noise(seed, 0.2))));
        assertNoSpeed(Analysed.of(Formula.of(Formula.noise(seed, 0.00003))));
    }

    @Test
    void silenceGivesNoSpeed() {
        assertNoSpeed(Analysed.of(Formula.of(t -> 0)));
        assertNoSpeed(Analysed.of(Formula.of(t -> 0.25)));
    }

    @ParameterizedTest(name = "{0} Hz")
    @ValueSource(doubles = {49.9, 50, 50.1, 100.04})
    void pureMainsPickUpGivesNoSpeed(double hz) {
        DoubleUnaryOperator rough = Formula.noise(5, 0.001);
        assertNoSpeed(Analysed.of(Formula.of(t -> 0.3 * Math.sin(2 * Math.PI * hz * t)
                + 0.05 * Math.sin(6 * Math.PI * hz * t)
                + rough.applyAsDouble(t))));
    }

    @Test
    void aCutWaveIsCalledClippedAndKeepsItsSpeed() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(Formula.tone(203.7, 1.6)));
        assertTrue(has(outcome, FindingCode.CLIPPED), outcome.findings().toString());
        assertEquals(203.7 * 60 / 8, outcome.rotation().orElseThrow().speed().meanRpm(), 0.01);
    }

    @Test
    void aWholeWaveIsNotCalledClipped() {
        assertFalse(has(Analysed.of(Formula.of(Formula.tone(203.7, 0.99))), FindingCode.CLIPPED));
        assertFalse(has(Analysed.of(Formula.of(Formula.tone(31.3, 0.01))), FindingCode.CLIPPED));
    }

    @Test
    void missingSamplesAreAGapAndNoBlip() {
        DoubleUnaryOperator tone = Formula.tone(160, 0.5);
        Outcome.Analysed zeros = Analysed.of(Formula.of(t -> t > 3 && t < 3.05 ? 0 : tone.applyAsDouble(t)));
        Outcome.Analysed held =
                Analysed.of(Formula.of(t -> t > 3 && t < 3.03 ? tone.applyAsDouble(3.0009) : tone.applyAsDouble(t)));
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
        Outcome.Analysed outcome = Analysed.of(Formula.of(Formula.tone(160, 0.0002)));
        assertTrue(has(outcome, FindingCode.LOW_LEVEL), outcome.findings().toString());
    }

    @Test
    void noiseNearTheTachoIsCalledSo() {
        DoubleUnaryOperator rough = Formula.noise(9, 0.06);
        Outcome.Analysed outcome =
                Analysed.of(Formula.of(t -> 0.3 * Math.sin(2 * Math.PI * 160 * t) + rough.applyAsDouble(t)));
        assertTrue(has(outcome, FindingCode.LOW_SNR), outcome.findings().toString());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 1);
    }

    @Test
    void anOffsetIsNotedAndTakenOut() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(t -> 0.4 + 0.3 * Math.sin(2 * Math.PI * 160 * t)));
        assertTrue(has(outcome, FindingCode.OFFSET), outcome.findings().toString());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.02);
    }

    @Test
    void theChannelThatTurnsIsFoundNotTheLoudest() {
        DoubleUnaryOperator loud = Formula.noise(3, 0.3);
        Outcome.Analysed outcome = Analysed.of(Formula.of(loud, Formula.tone(50, 0.9), Formula.tone(160, 0.02)));
        assertEquals("3", outcome.source().channel());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.05);
    }

    @Test
    void aTenfoldChangeOfLevelCostsAFewCycles() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(t -> (t < 4 ? 0.5 : 0.05) * Math.sin(2 * Math.PI * 160 * t)));
        // six or seven cycles go at the ends of every recording
        assertEquals(
                160 * Formula.SECONDS, outcome.rotation().orElseThrow().speed().cycles(), 7 + 4);
    }

    @ParameterizedTest(name = "duty {0}")
    @ValueSource(doubles = {0.5, 0.2, 0.85})
    void aSquaredTachoHasItsSpeedAndNoFault(double duty) {
        Outcome.Analysed outcome = Analysed.of(Formula.of(t -> t * 160 % 1 < duty ? 0.8 : 0.0));
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.05);
        assertFalse(has(outcome, FindingCode.CLIPPED), outcome.findings().toString());
        assertFalse(has(outcome, FindingCode.GAP), outcome.findings().toString());
    }

    @Test
    void needlesOfTheTriacAreCalledSpikes() {
        DoubleUnaryOperator rough = Formula.noise(4, 0.001);
        Outcome.Analysed outcome = Analysed.of(Formula.of(t -> {
            double since = t % 0.01;
            return 0.4 * Math.sin(2 * Math.PI * 163 * t)
                    + 0.2 * Math.exp(-since / 0.0002) * Math.cos(25000 * since)
                    + rough.applyAsDouble(t);
        }));
        assertTrue(has(outcome, FindingCode.SPIKES), outcome.findings().toString());
        assertEquals(163 * 7.5, outcome.rotation().orElseThrow().speed().meanRpm(), 0.1);
        assertFalse(has(
                Analysed.of(Formula.of(t -> 0.4 * Math.sin(1024 * t) + rough.applyAsDouble(t))), FindingCode.SPIKES));
    }

    @Test
    void aSecondHarmonicAsLargeAsTheFirstIsTold() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(
                t -> 0.3 * Math.sin(2 * Math.PI * 120 * t) + 0.3 * Math.sin(4 * Math.PI * 120 * t + 1)));
        assertTrue(has(outcome, FindingCode.HARMONIC), outcome.findings().toString());
        assertEquals(900, outcome.rotation().orElseThrow().speed().meanRpm(), 0.05);
    }

    @ParameterizedTest(name = "mains at {0} of its frequency")
    @ValueSource(doubles = {44100.0 / 48000, 48000.0 / 44100})
    void aWrongSampleRateIsSuspectedByTheMains(double factor) {
        DoubleUnaryOperator rough = Formula.noise(6, 0.001);
        DoubleUnaryOperator tacho = Formula.tone(133.1, 0.4);
        Outcome.Analysed wrong = Analysed.of(Formula.of(t ->
                tacho.applyAsDouble(t) + 0.02 * Math.sin(2 * Math.PI * 50.02 * factor * t) + rough.applyAsDouble(t)));
        Outcome.Analysed right = Analysed.of(Formula.of(
                t -> tacho.applyAsDouble(t) + 0.02 * Math.sin(2 * Math.PI * 50.02 * t) + rough.applyAsDouble(t)));
        assertTrue(has(wrong, FindingCode.RATE_SUSPECT), wrong.findings().toString());
        assertFalse(has(right, FindingCode.RATE_SUSPECT), right.findings().toString());
    }

    /** A run sheet that says 50 Hz where the mains is 60 Hz: told, and taken out as pick-up, not as steps of the offset. */
    @Test
    void pickUpOfTheOtherMainsIsToldAndTakenOut() {
        DoubleUnaryOperator rough = Formula.noise(7, 0.002);
        DoubleUnaryOperator tacho = Formula.tone(317.3, 0.4);
        Outcome.Analysed outcome = Analysed.of(Formula.lasting(
                20, t -> tacho.applyAsDouble(t) + 0.08 * Math.sin(2 * Math.PI * 59.99 * t) + rough.applyAsDouble(t)));
        List<Finding> told = outcome.findings();
        Finding rate = told.stream()
                .filter(f -> f.code() == FindingCode.RATE_SUSPECT)
                .findFirst()
                .orElseThrow();
        assertTrue(rate.text().contains("60 Hz, say so"), rate.text());
        assertTrue(has(outcome, FindingCode.HUM), told.toString());
        assertFalse(has(outcome, FindingCode.OFFSET_STEP), told.toString());
    }

    /** A tacho at the mains whose phase wanders, and pick-up of a third of it: neither can be told from the other, and no blip is made of it. */
    @Test
    void pickUpThatBeatsSlowlyWithTheTachoIsNoBlip() {
        DoubleUnaryOperator rough = Formula.noise(9, 0.002);
        DoubleUnaryOperator tacho = t -> {
            double turns = 50.13 * t + 0.9 * Math.sin(0.7 * t) + 0.35 * Math.sin(1.9 * t + 1);
            double angle = 2 * Math.PI * turns;
            return 0.4 * Math.sin(angle + 0.06 * Math.sin(angle / 8) + 0.05 * Math.sin(3 * angle / 8));
        };
        Outcome.Analysed outcome = Analysed.of(Formula.lasting(
                40, t -> tacho.applyAsDouble(t) + 0.16 * Math.sin(2 * Math.PI * 50.003 * t) + rough.applyAsDouble(t)));
        Rotation rotation = outcome.rotation().orElseThrow();
        assertTrue(
                rotation.blips().map(b -> b.events().isEmpty()).orElse(true),
                rotation.blips().toString());
        assertTrue(
                outcome.findings().stream()
                        .anyMatch(f -> f.code() == FindingCode.HUM && f.text().contains("no blip is looked for")),
                outcome.findings().toString());
        assertFalse(has(outcome, FindingCode.LEVEL_STEP), outcome.findings().toString());
    }

    /** A tacho beside twice the mains that leaves for another speed is followed from its begin: it is no pick-up at standstill. */
    @Test
    void aTachoAtTwiceTheMainsIsNoStandingHum() {
        DoubleUnaryOperator rough = Formula.noise(10, 0.002);
        Outcome.Analysed outcome = Analysed.of(Formula.lasting(20, t -> {
            double since = Math.max(0, t - 8);
            double turns = 99.8 * t + 40 * (since + 0.1 * Math.expm1(-since / 0.1));
            double speed = 99.8 - 40 * Math.expm1(-since / 0.1);
            return 0.3 * speed / 100 * Math.sin(2 * Math.PI * turns) + rough.applyAsDouble(t);
        }));
        Rotation rotation = outcome.rotation().orElseThrow();
        assertTrue(
                rotation.track().fromSeconds(0) < 0.5,
                "followed from " + rotation.track().fromSeconds(0) + " s");
        assertEquals(1, rotation.steps().size(), rotation.steps().toString());
        assertEquals(99.8 * 7.5, rotation.steps().get(0).fromRpm(), 2);
    }

    @Test
    void aCrawlOnASoundCardIsToldOfItsInput() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(Formula.tone(12, 0.4)));
        assertTrue(has(outcome, FindingCode.COUPLING), outcome.findings().toString());
    }

    @Test
    void aLostBufferIsAGapAndNoBlip() {
        DoubleUnaryOperator rough = Formula.noise(8, 0.001);
        Outcome.Analysed outcome = Analysed.of(Formula.of(
                t -> 0.4 * Math.sin(2 * Math.PI * 160 * (t > 4 ? t + 0.0322 : t)) + rough.applyAsDouble(t)));
        assertTrue(has(outcome, FindingCode.SAMPLES_LOST), outcome.findings().toString());
        assertEquals(
                List.of(),
                outcome.rotation().orElseThrow().blips().orElseThrow().events());
        assertEquals(1200, outcome.rotation().orElseThrow().speed().meanRpm(), 0.1);
    }

    /** Voice-like: a buzz whose pitch wanders, in syllables with pauses. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void speechGivesNoSpeed(long seed) {
        Random random = new Random(seed);
        double[] pitch = new double[40];
        for (int i = 0; i < pitch.length; i++) {
            pitch[i] = 100 + 80 * random.nextDouble();
        }
        DoubleUnaryOperator breath = Formula.noise(seed, 0.002);
        Outcome.Analysed outcome = Analysed.of(Formula.of(t -> {
            int syllable = (int) (t / 0.2);
            double within = t - 0.2 * syllable;
            double loud = within < 0.14 ? 0.3 * Math.sin(Math.PI * within / 0.14) : 0;
            double phase = 2 * Math.PI * (pitch[syllable] * within + 60 * within * within);
            return loud * (Math.sin(phase) + 0.7 * Math.sin(2 * phase) + 0.5 * Math.sin(3 * phase))
                    + breath.applyAsDouble(t);
        }));
        assertEquals(Grade.UNUSABLE, outcome.grade(), outcome.findings().toString());
        assertTrue(outcome.rotation().isEmpty());
    }

    @Test
    void aKnockGivesNoSpeed() {
        DoubleUnaryOperator breath = Formula.noise(2, 0.0005);
        Outcome.Analysed outcome = Analysed.of(Formula.of(
                t -> (t > 2 ? 0.8 * Math.exp(-(t - 2) / 0.08) * Math.sin(2 * Math.PI * 180 * t) : 0)
                        + breath.applyAsDouble(t)));
        assertEquals(Grade.UNUSABLE, outcome.grade(), outcome.findings().toString());
        assertTrue(outcome.rotation().isEmpty());
    }
}
