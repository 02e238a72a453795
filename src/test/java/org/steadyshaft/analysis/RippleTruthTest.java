package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** Ripple at the mains and twice the mains as drawn: figures, intervals, and what cannot be told. */
class RippleTruthTest {
    /** Eight or twenty of what {@link RippleErrors} draws by the hundred; k = 2 should hold 95 of 100. */
    @Test
    void intervalsHoldTheTruth() {
        RippleErrors errors = RippleErrors.of(1001, Thorough.count(8, 20), false);
        String figures = errors.inside() + " of " + errors.told() + ", median " + errors.medianPercent() + " %";
        assertTrue(errors.told() >= Thorough.count(12, 30), figures);
        assertTrue(errors.insidePercent() >= Thorough.count(80, 87), figures);
        assertTrue(errors.medianPercent() <= 2, figures);
    }

    /** At 40 revolutions of the order and of the mains in step, poles and swing look the same. */
    @ParameterizedTest(name = "{0} rpm")
    @ValueSource(doubles = {600, 1000, 1200, 1500})
    void anOrderOfTheShaftOnTwiceTheMainsCannotBeTold(double rpm) {
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(100, 0.5, 1);
        Settings settings = Settings.clean(12000, 20)
                .withPattern(1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2)
                .withShape(0.5 * 1000 / rpm, 0.03, 0.05)
                .withNoise(0.003, 5);
        MainsRipple twice = Analysed.rotation(new DrawnTacho("order", speed, settings))
                .ripple()
                .orElseThrow()
                .twiceMains();
        Untold untold = twice.untold().orElseThrow(() -> new AssertionError(twice.toString()));
        assertEquals(Untold.Why.SHAFT_ORDER, untold.why());
        assertEquals((int) Math.round(6000 / rpm), untold.order());
        assertTrue(untold.slowerRpm() < rpm && untold.slowerRpm() > 0.9 * rpm, untold.toString());
        assertTrue(untold.fasterRpm() > rpm && untold.fasterRpm() < 1.1 * rpm, untold.toString());
    }

    /** And at the speed it names it is told. */
    @Test
    void theSpeedNamedInsteadTellsIt() {
        DrawnSpeed speed = DrawnSpeed.level(606).line(100, 0.5, 1);
        Settings settings = Settings.clean(12000, 20).withShape(0.8, 0.03, 0.05).withNoise(0.003, 5);
        Ripple ripple = Analysed.rotation(new DrawnTacho("instead", speed, settings))
                .ripple()
                .orElseThrow();
        assertEquals(0.5, ripple.twiceMains().figure().orElseThrow().amplitudePercent(), 0.01);
    }

    /** The same ripple recorded with little and with much noise and hum is the same ripple. */
    @ParameterizedTest(name = "{0} Hz")
    @CsvSource({"77", "131", "268"})
    void equalRippleRecordedUnlikeIsEqual(double hz) {
        Ripple quiet = ripple(hz, 50, 0);
        Ripple loud = ripple(hz, 28, 0.2);
        double apart = Math.abs(quiet.rmsPercent() - loud.rmsPercent());
        double unsure = 0.5 * Math.hypot(quiet.expandedRmsPercent(), loud.expandedRmsPercent());
        assertTrue(apart < 3 * unsure, quiet + " and " + loud);
        assertTrue(apart < 0.08 * quiet.rmsPercent(), quiet + " and " + loud);
    }

    private static Ripple ripple(double hz, double snrDb, double hum) {
        RippleCase drawn = RippleCase.of(3, new Random(3), hz, snrDb, hum);
        return Analysed.rotation(drawn.source()).ripple().orElseThrow();
    }

    /** A clock 100 ppm off in two minutes turns a line at 100 Hz more than once; its size must not suffer. */
    @Test
    void aLongRecordWithAWrongClockLosesNothing() {
        DrawnSpeed speed = DrawnSpeed.level(640).line(100, 0.3, 1).line(50, 0.1, 2);
        Settings settings = Settings.clean(12000, 120)
                .withShape(0.8, 0.03, 0.05)
                .withClockError(100)
                .withNoise(0.003, 6);
        Ripple ripple = Analysed.rotation(new DrawnTacho("long", speed, settings))
                .ripple()
                .orElseThrow();
        assertEquals(0.3, ripple.twiceMains().figure().orElseThrow().amplitudePercent(), 0.003);
        assertEquals(0.1, ripple.mains().figure().orElseThrow().amplitudePercent(), 0.002);
    }

    /** Where peaks are held back a little, the level follows the speed by a share, which angle and level of the lines tell. */
    @ParameterizedTest(name = "bent {0} times, {1} Hz")
    @CsvSource({"0.5, 34.2", "1, 59.2", "1, 131", "1.5, 87.7", "1.5, 114"})
    void whatHoldsPeaksBackDoesNotBendTheLines(double bend, double hz) {
        DrawnSpeed speed = DrawnSpeed.level(hz * 60 / 8).line(100, 0.3, 1).line(50, 0.15, 2);
        Settings settings = Settings.clean(16000, 20)
                .withShape(1000 / (hz * 60 / 8), 0.02, 0.04)
                .withNoise(0.006, 5);
        Ripple ripple = Analysed.rotation(Edited.bent(
                        new DrawnTacho("bent", speed, settings), v -> 0.5 * Math.tanh(bend * v) / Math.tanh(bend)))
                .ripple()
                .orElseThrow();
        assertHolds(0.3, ripple.twiceMains());
        assertHolds(0.15, ripple.mains());
    }

    /** An input's capacitor turns and shrinks the lower sidebands of slow tachos. */
    @ParameterizedTest(name = "{1} Hz tacho behind {0} Hz")
    @CsvSource({"5, 34.2", "10, 46.7", "20, 33.7", "20, 62", "20, 88"})
    void whatTheInputBlocksDoesNotBendTheLines(double corner, double hz) {
        DrawnSpeed speed = DrawnSpeed.level(hz * 60 / 8).line(100, 0.3, 1).line(50, 0.15, 2);
        Settings settings = Settings.clean(16000, 20)
                .withShape(500 / (hz * 60 / 8), 0.02, 0.04)
                .withNoise(0.003, 5);
        Ripple ripple = Analysed.rotation(Edited.coupled(new DrawnTacho("coupled", speed, settings), corner))
                .ripple()
                .orElseThrow();
        assertHolds(0.3, ripple.twiceMains());
        assertHolds(0.15, ripple.mains());
    }

    private static void assertHolds(double percent, MainsRipple said) {
        MainsRipple.Figure figure = said.figure().orElseThrow(() -> new AssertionError(said.toString()));
        double unsure = 1.5 * figure.expandedPercent();
        assertEquals(percent, figure.amplitudePercent(), unsure, said.toString());
        assertTrue(figure.expandedPercent() < 0.25 * percent, said.toString());
    }

    /** A tacho held at its limits does not follow the speed with its level. */
    @ParameterizedTest(name = "{0} Hz")
    @CsvSource({"83", "131"})
    void whatAHeldWaveShowsIsNotTold(double hz) {
        DrawnSpeed speed = DrawnSpeed.level(hz * 60 / 8).line(100, 0.3, 1);
        Settings settings = Settings.clean(16000, 20)
                .withShape(1000 / (hz * 60 / 8), 0.01, 0.01)
                .withNoise(0.001, 5);
        MainsRipple twice = Analysed.rotation(
                        Edited.bent(new DrawnTacho("held", speed, settings), v -> 0.5 * Math.tanh(4 * v)))
                .ripple()
                .orElseThrow()
                .twiceMains();
        assertEquals(Untold.Why.CUT_OFF, twice.untold().orElseThrow().why());
    }

    /** A recorder that cuts the peaks off mixes pick-up and tacho into swings that nobody made. */
    @Test
    void whatACutWaveShowsIsNotTold() {
        DrawnSpeed speed = DrawnSpeed.level(83 * 60 / 8.0).line(100, 0.3, 1);
        Settings settings = Settings.clean(16000, 20)
                .withShape(1.3, 0.01, 0.01)
                .withNoise(0.02, 5)
                .withHum(0.08, 50);
        Ripple ripple = Analysed.rotation(
                        Edited.bent(new DrawnTacho("cut", speed, settings), v -> Math.max(-0.5, Math.min(0.5, v))))
                .ripple()
                .orElseThrow();
        assertEquals(
                Untold.Why.CUT_OFF, ripple.twiceMains().untold().orElseThrow().why());
        assertTrue(ripple.rmsPercent() < 0.05, ripple.toString());
    }
}
