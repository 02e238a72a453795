package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** Simulated captures with known ripple and blips: what was drawn is found, what was not drawn is not. */
class SteadinessTruthTest {
    private static final double[] PATTERN = {1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2};

    private static Settings slow(long seed) {
        return Settings.clean(16000, 30)
                .withPattern(PATTERN)
                .withShape(1, 0.03, 0.05)
                .withNoise(0.003, seed);
    }

    @ParameterizedTest(name = "{0} Hz, {1} % at {2} rpm")
    @CsvSource({
        "100, 0.8, 3110, TWICE_MAINS",
        "100, 0.5, 1600, TWICE_MAINS",
        "50, 0.1, 2950, MAINS",
        "1.3, 0.6, 2000, HUNTING",
        "0.7, 1.5, 700, HUNTING",
        "7.7, 0.4, 1150, SWING",
        "14.7, 0.4, 1150, UNKNOWN"
    })
    void aLineIsFoundWithItsAmplitudeAndCause(double hz, double percent, double rpm, RippleCause cause) {
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(hz, percent, 0.3);
        Settings settings = slow(21).withShape(0.6 * 1000 / rpm, 0.03, 0.05);
        List<RippleLine> lines = Analysed.rotation(new DrawnTacho("line", speed, settings))
                .spectrum()
                .lines();
        RippleLine first = lines.stream().findFirst().orElseThrow(() -> new AssertionError("no line"));
        assertEquals(hz, first.frequencyHz(), Math.max(0.002 * hz, 0.01));
        assertEquals(percent, first.amplitudePercent(), 0.05 * percent);
        assertEquals(cause, first.cause());
    }

    @Test
    void aLineNearHalfTheTachoFrequencyKeepsItsAmplitude() {
        DrawnSpeed speed = DrawnSpeed.level(1600).line(95, 0.5, 0.3);
        List<RippleLine> lines = Analysed.rotation(new DrawnTacho("edge", speed, slow(22)))
                .spectrum()
                .lines();
        assertEquals(95, lines.get(0).frequencyHz(), 0.05);
        assertEquals(0.5, lines.get(0).amplitudePercent(), 0.05);
    }

    @Test
    void rippleFasterThanHalfTheTachoStandsInItsPlace() {
        DrawnSpeed speed = DrawnSpeed.level(975).line(100, 1.0, 0.3);
        Outcome.Analysed outcome = Analysed.of(new DrawnTacho("fast", speed, slow(23)));
        RippleLine line = outcome.rotation().orElseThrow().spectrum().lines().get(0);
        assertEquals(100, line.frequencyHz(), 0.02);
        assertEquals(1, line.amplitudePercent(), 0.02);
        assertEquals(RippleCause.TWICE_MAINS, line.cause());
        assertTrue(outcome.findings().stream().noneMatch(f -> f.code() == FindingCode.ALIASED_RIPPLE));
    }

    @Test
    void humIsTakenOutAndNoRippleOfTheShaft() {
        Settings settings = slow(24).withHum(0.03, 50.02);
        Rotation rotation = Analysed.rotation(new DrawnTacho("hum", DrawnSpeed.level(1510), settings));
        assertTrue(
                rotation.spectrum().lines().stream().allMatch(line -> line.amplitudePercent() < 0.01),
                rotation.spectrum().lines().toString());
        assertEquals(0, rotation.blips().orElseThrow().events().size());
    }

    /** A multiple of the mains close to the tacho's frequency: it sways the crossings, the shaft does not swing. */
    @Test
    void humBesideTheTachoIsNoRipple() {
        Settings settings = slow(24).withHum(0.03, 50.02);
        Rotation rotation = Analysed.rotation(new DrawnTacho("hum", DrawnSpeed.level(1127), settings));
        assertTrue(
                rotation.spectrum().lines().stream().allMatch(line -> line.amplitudePercent() < 0.01),
                rotation.spectrum().lines().toString());
    }

    @Test
    void peakToPeakIsTheCoefficientOfFluctuation() {
        DrawnSpeed speed = DrawnSpeed.level(3000).line(2.5, 1.0, 0);
        Settings settings = Settings.clean(48000, 20).withShape(0.2, 0.03, 0.03).withNoise(0.0002, 25);
        Rotation rotation = Analysed.rotation(new DrawnTacho("swing", speed, settings));
        assertEquals(2.0, rotation.ripple().orElseThrow().peakToPeakPercent(), 0.06);
        assertEquals(1 / Math.sqrt(2), rotation.ripple().orElseThrow().rmsPercent(), 0.01);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {31, 32, 33})
    void blipsAreFoundWithTimeAndSignedSize(long seed) {
        DrawnSpeed speed = DrawnSpeed.level(450 + 20 * (seed - 31))
                .line(100, 0.4, 0.1)
                .line(0.9, 0.5, 0.2)
                .blip(4.21, 0.015, 5.0, 0.2)
                .blip(9.87, 0.02, -3.0, 0.25)
                .blip(15.33, 0.012, 2.0, 0.15)
                .blip(22.5, 0.02, 6.5, 0.2);
        List<Blip> found = Analysed.rotation(new DrawnTacho("blips", speed, slow(seed)))
                .blips()
                .orElseThrow()
                .events();
        assertEquals(4, found.size(), "seed " + seed + ": " + found);
        double[] peaks = {5.0, -3.0, 2.0, 6.5};
        double[] times = {4.225, 9.89, 15.342, 22.52};
        for (int i = 0; i < 4; i++) {
            assertEquals(times[i], found.get(i).peakSeconds(), 0.03, "seed " + seed);
            assertEquals(peaks[i], found.get(i).peakPercent(), 0.12 * Math.abs(peaks[i]), "seed " + seed);
            assertEquals(
                    peaks[i] > 0 ? BlipCause.EXTRA_CONDUCTION : BlipCause.MISSED_FIRING,
                    found.get(i).cause());
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {41, 42, 43, 44})
    void cleanRunningGivesNoBlips(long seed) {
        DrawnSpeed speed = DrawnSpeed.level(400 + 200 * (seed - 41))
                .line(100, 0.6, 0.1)
                .line(50, 0.1, 0.2)
                .line(0.8, 0.7, 0.3)
                .drift(1.5);
        Rotation rotation = Analysed.rotation(new DrawnTacho("clean", speed, slow(seed)));
        assertEquals(List.of(), rotation.blips().orElseThrow().events(), "seed " + seed);
        assertTrue(rotation.blips().orElseThrow().perMinuteHigh() > 6, "no blip in half a minute proves little");
    }

    @Test
    void aStepIsNoRippleAndSplitsTheSteadyStretches() {
        DrawnSpeed speed = DrawnSpeed.level(900).step(12, 40, 0.4);
        Rotation rotation = Analysed.rotation(new DrawnTacho("step", speed, slow(51)));
        assertEquals(2, rotation.steady().size(), "steady " + rotation.steady());
        assertEquals(900, rotation.track().meanRpm(rotation.steady().get(0)), 2);
        assertEquals(1260, rotation.track().meanRpm(rotation.steady().get(1)), 2);
        assertTrue(rotation.ripple().orElseThrow().rmsPercent() < 0.2, "ripple " + rotation.ripple());
    }
}
