package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.voltage.LearntTurn;

/** What uneven poles give is the same in all recordings of a tacho: one at a clean speed tells the ripple of one that runs on an order. */
class OneTachoTruthTest {
    private static final double[] POLES = {1.1, -0.4, 0.3, -1.2, 0.6, 0.2, -0.9, 0.3};
    private static final double[] OTHER_POLES = {-0.3, 1.4, -0.8, 0.1, -1.1, 0.9, 0.5, -0.7};

    private static SampleSource recording(double rpm, double twice, double once, double[] poles, long seed) {
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(100.013, twice, seed).line(50.0065, once, 2 + seed);
        Settings settings = Settings.clean(12000, 20)
                .withShape(500 / rpm, 0.03, 0.05)
                .withPattern(poles)
                .withEccentricity(0.7)
                .withHum(0.01, 50.0065)
                .withNoise(0.003, seed);
        return new DrawnTacho("tacho at " + rpm, speed, settings);
    }

    private static Rotation rotation(SampleSource source, List<LearntTurn> others) {
        AnalysisSettings settings =
                new AnalysisSettings(8, AnalysisSettings.PolePairsFrom.OPTION, 50, Optional.empty());
        try {
            return new CaptureAnalyser(settings, others)
                    .analyse(source, "", CaptureLabel.NONE)
                    .rotation()
                    .orElseThrow();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<LearntTurn> learnt(double[] poles) {
        return List.of(
                rotation(recording(623, 0.25, 0.05, poles, 11), List.of())
                        .learnt()
                        .orElseThrow(),
                rotation(recording(931, 0.4, 0.1, poles, 12), List.of())
                        .learnt()
                        .orElseThrow());
    }

    @ParameterizedTest(name = "{0} rpm")
    @CsvSource({"600.002", "461.54", "1200.01", "666.66"})
    void whatStandsOnAnOrderIsToldByTheOthers(double rpm) {
        Rotation alone = rotation(recording(rpm, 0.3, 0.12, POLES, 5), List.of());
        assertTrue(alone.isHiddenByTheShaft());
        Ripple ripple = rotation(recording(rpm, 0.3, 0.12, POLES, 5), learnt(POLES))
                .ripple()
                .orElseThrow();
        MainsRipple.Figure twice = ripple.twiceMains().figure().orElseThrow();
        assertEquals(0.3, twice.amplitudePercent(), 1.5 * twice.expandedPercent());
        assertTrue(twice.expandedPercent() < 0.05, twice.toString());
        assertEquals(2, twice.others());
        MainsRipple.Figure once = ripple.mains().figure().orElseThrow();
        assertEquals(0.12, once.amplitudePercent(), 1.5 * once.expandedPercent());
    }

    /** A wrong name in the run sheet must not make a figure. */
    @Test
    void anotherTachoTellsNothingWrong() {
        Ripple ripple = rotation(recording(600.002, 0.3, 0.12, POLES, 5), learnt(OTHER_POLES))
                .ripple()
                .orElseThrow();
        ripple.twiceMains()
                .figure()
                .ifPresent(f -> assertEquals(0.3, f.amplitudePercent(), 1.5 * f.expandedPercent(), f.toString()));
    }

    /** Recordings at speeds on the same orders have the same doubt. */
    @Test
    void theSameSpeedTellsNothing() {
        List<LearntTurn> same = List.of(rotation(recording(600.003, 0.2, 0.1, POLES, 6), List.of())
                .learnt()
                .orElseThrow());
        Ripple ripple =
                rotation(recording(600.002, 0.3, 0.12, POLES, 5), same).ripple().orElseThrow();
        assertTrue(ripple.twiceMains().untold().isPresent());
    }
}
