package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.simulate.Scenario;
import org.steadyshaft.simulate.ScenarioReader;
import org.steadyshaft.simulate.SimulatedCapture;

/** Scenarios simulated from physics and analysed: what {@link ScenarioBench} does not ask of all of them. */
class ScenarioTruthTest {
    private static SimulatedCapture make(String name) {
        Scenario scenario = ScenarioReader.read(name);
        return scenario.make(1, OptionalDouble.empty(), scenario.recorder().kind());
    }

    private static Rotation rotation(SimulatedCapture capture) {
        return Analysed.rotation(capture.recording());
    }

    /** The dip that a hand makes over a second is no blip; a flicker at the limit of the noise is let pass here. */
    @Test
    void aHandOnTheClayIsNoBlip() {
        List<Blip> found = rotation(make("bench-grip")).blips().orElseThrow().events();
        assertTrue(found.size() <= 1, found.toString());
        assertTrue(found.stream().allMatch(b -> Math.abs(b.peakPercent()) < 0.6), found.toString());
    }

    @Test
    void aHotLoopHunts() {
        Rotation rotation = rotation(make("bench-hot-loop"));
        RippleLine largest = rotation.spectrum().lines().get(0);
        assertEquals(RippleCause.HUNTING, largest.cause());
        assertTrue(largest.amplitudePercent() > 3, largest.toString());
        assertEquals(0, rotation.blips().orElseThrow().events().size());
    }

    @Test
    void aSetPointAndALoadStepPartTheSteadyStretches() {
        for (String name : List.of("bench-set-point", "bench-load-step")) {
            SimulatedCapture capture = make(name);
            Rotation rotation = rotation(capture);
            for (Stretch stretch : rotation.steady()) {
                double truth = capture.meanRpm(stretch.fromSeconds(), stretch.toSeconds());
                assertEquals(truth, rotation.track().meanRpm(stretch), 2e-3 * truth, name + " " + stretch);
            }
            assertTrue(rotation.steady().size() >= 2, name + " " + rotation.steady());
        }
    }

    @Test
    void aRunUpFromRestIsFollowed() {
        SimulatedCapture capture = make("bench-start");
        Rotation rotation = rotation(capture);
        double worst = 0;
        for (int i = 0; i < rotation.track().size(); i++) {
            double truth = capture.meanRpm(
                    rotation.track().fromSeconds(i), rotation.track().toSeconds(i));
            worst = Math.max(worst, Math.abs(rotation.track().speedRpm(i) / truth - 1));
        }
        assertTrue(worst < 0.03, "worst " + worst);
        assertTrue(
                rotation.track().fromSeconds(0) < 1.5,
                "first cycle at " + rotation.track().fromSeconds(0));
    }

    @Test
    void aBadRecordingIsCalledSoAndKeepsItsSpeed() {
        SimulatedCapture capture = make("bench-bad-recording");
        Outcome.Analysed outcome = Analysed.of(capture.recording());
        assertEquals(Grade.DOUBTFUL, outcome.grade());
        assertTrue(outcome.findings().stream().anyMatch(f -> f.code() == FindingCode.CLIPPED));
        assertTrue(outcome.findings().stream().anyMatch(f -> f.code() == FindingCode.HUM));
        double mean = outcome.rotation().orElseThrow().speed().meanRpm();
        assertEquals(capture.meanRpm(), mean, 1e-3 * mean);
    }
}
