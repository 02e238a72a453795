package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** Simulated captures at a constant or known speed: the speed found is the speed drawn. */
class SpeedTruthTest {
    private static final double[] PATTERN = {1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2};

    @TempDir
    Path folder;

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void aConstantSpeedInWavIsRightToTwentyPartsInAMillion(long seed) throws IOException {
        Random random = new Random(seed);
        double rpm = 150 + 4000 * random.nextDouble();
        double rate = new double[] {8000, 44100, 48000}[random.nextInt(3)];
        Settings settings =
                Settings.clean(rate, 10).withShape(0.5 * 1000 / rpm, 0.05, 0.03).withNoise(0.002, seed);
        Path file = folder.resolve("run.wav");
        new WavWriter(seed % 2 == 0 ? 16 : 24).write(new DrawnTacho("run", DrawnSpeed.level(rpm), settings), file);
        Rotation rotation = Analysed.rotation(Recordings.open(file, "run.wav", ReadOptions.NONE));
        assertEquals(rpm, rotation.speed().meanRpm(), 20e-6 * rpm, "seed " + seed);
        assertEquals(rpm, rotation.speed().spectralRpm().orElseThrow(), 200e-6 * rpm, "seed " + seed);
        assertTrue(Math.abs(rotation.speed().meanRpm() - rpm) < rotation.speed().expandedRpm());
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13, 14})
    void aConstantSpeedInEightBitTextIsRightToTwoHundredPartsInAMillion(long seed) throws IOException {
        double rpm = 500 + 3000 * new Random(seed).nextDouble();
        Settings settings =
                Settings.clean(20000, 1).withShape(7.0 * 1000 / rpm, 0.03, 0.03).withNoise(0.03, seed);
        Path file = folder.resolve("run.csv");
        new ScopeTextWriter(20).write(new DrawnTacho("run", DrawnSpeed.level(rpm), settings), file);
        Rotation rotation = Analysed.rotation(Recordings.open(file, "run.csv", ReadOptions.NONE));
        assertEquals(rpm, rotation.speed().meanRpm(), 200e-6 * rpm, "seed " + seed);
    }

    @Test
    void aCrawlOfFewHertzIsSeenByLongFrames() {
        double rpm = 60;
        Settings settings = Settings.clean(8000, 20)
                .withTachometer(new Tachometer(4))
                .withShape(5, 0.03, 0.03)
                .withNoise(0.003, 5);
        Outcome.Analysed outcome = Analysed.of(new DrawnTacho("crawl", DrawnSpeed.level(rpm), settings), 4);
        assertEquals(rpm, outcome.rotation().orElseThrow().speed().meanRpm(), 100e-6 * rpm);
    }

    @Test
    void aSecondHarmonicAboveTheFundamentalDoesNotDoubleTheSpeed() {
        Settings settings = Settings.clean(48000, 5).withShape(0.3, 1.4, 0.3).withNoise(0.001, 6);
        Rotation rotation = Analysed.rotation(new DrawnTacho("second", DrawnSpeed.level(700), settings));
        assertEquals(700, rotation.speed().meanRpm(), 0.02);
    }

    @Test
    void humBesideTheTachoIsNotTakenForTheShaft() {
        Settings settings = Settings.clean(48000, 10)
                .withShape(0.5, 0.03, 0.03)
                .withHum(0.3 * 0.5 * 0.82, 50.03)
                .withNoise(0.001, 7);
        Outcome.Analysed outcome = Analysed.of(new DrawnTacho("hum", DrawnSpeed.level(820), settings));
        assertEquals(820, outcome.rotation().orElseThrow().speed().meanRpm(), 0.2);
        assertEquals(Grade.DOUBTFUL, outcome.grade());
        assertTrue(outcome.findings().stream().anyMatch(f -> f.code() == FindingCode.HUM));
    }

    @Test
    void theTrackFollowsARunUp() {
        DrawnSpeed speed = DrawnSpeed.level(400).step(1, 900, 3);
        Settings settings = Settings.clean(48000, 10).withShape(0.2, 0.03, 0.03).withNoise(0.0005, 8);
        Rotation rotation = Analysed.rotation(new DrawnTacho("run-up", speed, settings));
        double worst = 0;
        for (int i = 0; i < rotation.track().size(); i++) {
            double truth = speed.rpm(rotation.track().timeSeconds(i));
            worst = Math.max(worst, Math.abs(rotation.track().speedRpm(i) / truth - 1));
        }
        assertTrue(rotation.track().size() > 3000, "cycles " + rotation.track().size());
        assertTrue(worst < 0.01, "worst " + worst);
    }

    @Test
    void thePolePatternIsLearntAndTakenOut() {
        Settings settings = Settings.clean(48000, 15)
                .withPattern(PATTERN)
                .withShape(0.4, 0.03, 0.03)
                .withNoise(0.001, 9);
        Rotation rotation = Analysed.rotation(new DrawnTacho("pattern", DrawnSpeed.level(1183), settings));
        double[] learnt =
                rotation.pattern().orElseThrow().pitchDeviationPercent().toArray();
        double best = Double.POSITIVE_INFINITY;
        for (int shift = 0; shift < PATTERN.length; shift++) {
            double sum = 0;
            for (int i = 0; i < PATTERN.length; i++) {
                double off = learnt[i] - PATTERN[(i + shift) % PATTERN.length];
                sum += off * off;
            }
            best = Math.min(best, Math.sqrt(sum / PATTERN.length));
        }
        assertTrue(best < 0.1, "pattern off by " + best + " % rms in every position");
        assertTrue(rotation.ripple().orElseThrow().rmsPercent() < 0.05, "ripple " + rotation.ripple());
    }

    @Test
    void withoutAPatternNoneIsReported() {
        Settings settings = Settings.clean(48000, 10).withNoise(0.002, 10);
        assertTrue(Analysed.rotation(new DrawnTacho("even", DrawnSpeed.level(1183), settings))
                .pattern()
                .isEmpty());
    }

    @Test
    void aClockErrorWithinItsToleranceIsWithinTheUncertainty() {
        Settings settings = Settings.clean(48000, 10).withNoise(0.002, 11).withClockError(45);
        Rotation rotation = Analysed.rotation(new DrawnTacho("clock", DrawnSpeed.level(1500), settings));
        double error = Math.abs(rotation.speed().meanRpm() - 1500);
        assertTrue(error > 0.06, "the clock error must show: " + error);
        assertTrue(
                error < rotation.speed().expandedRpm(),
                error + " of " + rotation.speed().expandedRpm());
    }
}
