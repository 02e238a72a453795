package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** A tacho of few cycles a second: what the recorder did and what the shaft did are told apart although both are over within a cycle or two. */
class SlowTachoTruthTest {
    private static final Set<FindingCode> OF_RECORDER = EnumSet.of(
            FindingCode.SAMPLES_LOST,
            FindingCode.SAMPLES_DOUBLED,
            FindingCode.LEVEL_STEP,
            FindingCode.OFFSET_STEP,
            FindingCode.HUM_STEP,
            FindingCode.NOISE_BURST,
            FindingCode.LEAD_OPEN);

    private static Settings tacho(double seconds) {
        return Settings.clean(8000, seconds)
                .withPattern(0.6, -0.4, 0.3, -0.5, 0.4, 0.1, -0.6, 0.1)
                .withShape(0.6, 0.04, 0.03)
                .withNoise(0.004, 9);
    }

    private static List<FindingCode> ofRecorder(Outcome.Analysed outcome) {
        List<FindingCode> codes = new ArrayList<>();
        outcome.findings().forEach(f -> codes.add(f.code()));
        codes.retainAll(OF_RECORDER);
        return codes;
    }

    private static List<Blip> blips(Outcome.Analysed outcome) {
        return outcome.rotation().orElseThrow().blips().orElseThrow().events();
    }

    /** Parts of a second that are no whole cycles, at tachos of 20 to 160 Hz. */
    @ParameterizedTest(name = "{0} rpm, {1} samples")
    @CsvSource({"150, 97", "150, 260", "240, 90", "240, 1777", "360, 60", "600, 4031", "1200, 21"})
    void lostSamplesAreToldAndSpoilNoMean(double rpm, int samples) {
        DrawnTacho whole = new DrawnTacho("lost", DrawnSpeed.level(rpm).line(100, 0.1, 1), tacho(30));
        Outcome.Analysed outcome = Analysed.of(Edited.without(whole, 13.37, samples));
        assertTrue(
                outcome.findings().stream()
                        .anyMatch(f -> (f.code() == FindingCode.SAMPLES_LOST || f.code() == FindingCode.SAMPLES_DOUBLED)
                                && Math.abs(f.where().orElseThrow().fromSeconds() - 13.37) < 0.2),
                outcome.findings().toString());
        assertEquals(List.of(), blips(outcome));
        var speed = outcome.rotation().orElseThrow().speed();
        assertEquals(rpm, speed.meanRpm(), speed.uncertainty().expandedRpm());
    }

    /** From 8 to 60 Hz, back within one cycle to ten. */
    @ParameterizedTest(name = "{0} rpm, back in {1} s")
    @CsvSource({"60, 0.1", "60, 0.2", "90, 0.05", "90, 0.2", "150, 0.03", "150, 0.2", "225, 0.05", "450, 0.03"})
    void fastBlipsAreToldAndAreNoTroubleOfTheRecorder(double rpm, double backSeconds) {
        DrawnSpeed speed = DrawnSpeed.level(rpm);
        double[] percent = {12, -9, 20, -15};
        for (int i = 0; i < percent.length; i++) {
            speed = speed.blip(5.1 + 6.23 * i, 0.012, percent[i], backSeconds);
        }
        Outcome.Analysed outcome = Analysed.of(new DrawnTacho("fast", speed, tacho(30)));
        List<Blip> blips = blips(outcome);
        assertEquals(percent.length, blips.size(), blips.toString());
        for (int i = 0; i < percent.length; i++) {
            assertEquals(5.1 + 6.23 * i, blips.get(i).fromSeconds(), 0.02);
            assertEquals(percent[i], blips.get(i).peakPercent(), 0.15 * Math.abs(percent[i]));
        }
        assertEquals(List.of(), ofRecorder(outcome));
    }

    /** Pick-up that beats with the tacho is no step of the level and hides no blip. */
    @ParameterizedTest(name = "{0} Hz")
    @ValueSource(doubles = {42.5, 45.2, 47.8, 52.6, 55.3, 57.5, 95.1, 106})
    void pickUpBesideTheTachoHidesNothing(double hz) {
        DrawnSpeed speed = DrawnSpeed.level(hz * 60 / 8)
                .blip(6.2, 0.012, 3, 0.2)
                .blip(13.9, 0.012, -2.5, 0.1)
                .blip(22.3, 0.012, 2, 0.25);
        Outcome.Analysed outcome =
                Analysed.of(new DrawnTacho("beside", speed, tacho(30).withHum(0.048, 50.01)));
        assertEquals(3, blips(outcome).size(), blips(outcome).toString());
        assertEquals(List.of(), ofRecorder(outcome));
        assertTrue(
                outcome.findings().stream().noneMatch(f -> f.code() == FindingCode.POLE_COUNT),
                outcome.findings().toString());
    }

    /** After the shaft has stopped the pick-up alone is there, and is no speed. */
    @Test
    void pickUpOfAStandingShaftIsNoSpeed() {
        DrawnSpeed speed = DrawnSpeed.level(1500).ramp(6, 10, -99.99);
        Outcome.Analysed outcome =
                Analysed.of(new DrawnTacho("stop", speed, tacho(22).withHum(0.006, 50.01)));
        var track = outcome.rotation().orElseThrow().track();
        assertTrue(track.toSeconds(track.size() - 1) < 10.5, "followed to " + track.toSeconds(track.size() - 1) + " s");
        assertEquals(1, outcome.rotation().orElseThrow().alarms().size());
        assertEquals(List.of(), ofRecorder(outcome));
    }
}
