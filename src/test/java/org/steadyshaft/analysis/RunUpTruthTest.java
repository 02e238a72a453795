package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.signal.FindingCode;

/** A knob turned up fast: the speed sets off at once and runs to its new level, and nothing else happens. */
class RunUpTruthTest {
    private static final Set<FindingCode> RECORDER = EnumSet.of(
            FindingCode.NOISE_BURST,
            FindingCode.LEVEL_STEP,
            FindingCode.OFFSET_STEP,
            FindingCode.HUM_STEP,
            FindingCode.LEAD_OPEN,
            FindingCode.SAMPLES_LOST,
            FindingCode.SAMPLES_DOUBLED);

    /** Phase of the tacho [rad] that keeps one frequency and then runs to another, as a time constant has it. */
    private static double phase(double t, double fromHz, double toHz, double startSeconds, double tau) {
        double since = Math.max(0, t - startSeconds);
        double before = Math.min(t, startSeconds);
        double ripple = 0.002 * toHz / 100 * Math.sin(2 * Math.PI * 100 * t) / (2 * Math.PI);
        return 2
                * Math.PI
                * (fromHz * before + toHz * since - (toHz - fromHz) * tau * (1 - Math.exp(-since / tau)) + ripple);
    }

    @ParameterizedTest(name = "from {1} to {0} Hz in {2} s, hum {3}")
    @CsvSource({
        "150, 18.75, 1.2, 0",
        "150, 37.5, 0.5, 0.004",
        "150, 37.5, 3, 0.02",
        "200, 100, 0.5, 0.02",
        "260, 130, 0.5, 0.004",
        "260, 32.5, 1.2, 0.004",
        "400, 200, 1.2, 0",
        "400, 100, 0.5, 0.02"
    })
    void aKnobTurnedUpIsNoBlip(double toHz, double fromHz, double tau, double hum) {
        DoubleUnaryOperator noise = Formula.noise(5, 0.002);
        DoubleUnaryOperator tacho = t -> {
            double since = Math.max(0, t - 2.007);
            double share = 1 - (1 - fromHz / toHz) * Math.exp(-since / tau);
            double phase = phase(t, fromHz, toHz, 2.007, tau);
            return 0.5 * share * (Math.sin(phase) + 0.03 * Math.sin(2 * phase + 0.5))
                    + hum * Math.sin(2 * Math.PI * 50 * t)
                    + noise.applyAsDouble(t);
        };
        Outcome.Analysed outcome = Analysed.of(Formula.of(tacho));
        Rotation rotation = outcome.rotation().orElseThrow();
        assertEquals(List.of(), rotation.blips().map(Blips::events).orElse(List.of()));
        assertTrue(
                outcome.findings().stream().noneMatch(f -> RECORDER.contains(f.code())),
                outcome.findings().toString());
    }
}
