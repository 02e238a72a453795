package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.signal.SampleSource;

/** Wheels with missing teeth and lost magnets: speed, ripple and blips as with a whole wheel. */
class MissingTeethTruthTest {
    private static final double RIPPLE_HZ = 7;
    private static final double RIPPLE = 0.01;

    /** How a pick-up answers to a passing tooth or magnet. */
    private enum Wave {
        SINE,
        CLIPPED,
        /** Of an inductive pick-up: up before the tooth, down behind it. */
        INDUCTIVE;

        double at(double share) {
            return switch (this) {
                case SINE -> Math.sin(2 * Math.PI * share);
                case CLIPPED -> Math.max(-0.5, Math.min(0.5, Math.sin(2 * Math.PI * share)));
                case INDUCTIVE -> (0.5 - share) * 12 * Math.exp(-Math.pow((share - 0.5) * 6, 2) + 0.5) / 1.4;
            };
        }
    }

    private static boolean[] missing(String wheel) {
        String[] parts = wheel.split("-");
        boolean[] missing = new boolean[Integer.parseInt(parts[0])];
        for (int part = 1; part < parts.length; part++) {
            for (int k = 0; k < Integer.parseInt(parts[part]); k++) {
                missing[(part - 1) * missing.length / 3 + k] = true;
            }
        }
        return missing;
    }

    private static SampleSource source(String wheel, double turnsPerSecond, Wave wave, boolean blip) {
        boolean[] missing = missing(wheel);
        Random random = new Random(4);
        DoubleUnaryOperator value = t -> {
            double turns = turnsPerSecond
                    * (t
                            + RIPPLE / (2 * Math.PI * RIPPLE_HZ) * Math.sin(2 * Math.PI * RIPPLE_HZ * t)
                            + (blip && t > 4 ? 0.03 * 0.06 * (1 - Math.exp(-(t - 4) / 0.06)) : 0));
            double tooth = turns * missing.length;
            int index = Math.floorMod((long) Math.floor(tooth), missing.length);
            double now = missing[index] ? 0 : wave.at(tooth - Math.floor(tooth));
            return 0.6 * now + 0.003 * random.nextGaussian();
        };
        return Formula.of(value);
    }

    @ParameterizedTest(name = "{0} at {1} turns a second, {2}")
    @CsvSource({
        "60-2, 12.3, INDUCTIVE",
        "60-2, 12.3, SINE",
        "36-1, 17.1, INDUCTIVE",
        "36-1, 17.1, CLIPPED",
        "36-2-1, 15.2, INDUCTIVE",
        "12-1, 21.3, INDUCTIVE",
        "12-1, 21.3, SINE",
        "16-1, 20.3, SINE",
        "8-1, 21.7, SINE",
        "8-1, 21.7, CLIPPED",
        "6-1, 24.1, SINE",
        "4-1, 31.3, SINE"
    })
    void speed_and_ripple(String wheel, double turnsPerSecond, Wave wave) throws IOException {
        int teeth = missing(wheel).length;
        Outcome.Analysed outcome = Analysed.of(source(wheel, turnsPerSecond, wave, false), teeth);
        Rotation rotation = outcome.rotation()
                .orElseThrow(() -> new AssertionError(outcome.findings().toString()));
        assertEquals(60 * turnsPerSecond, rotation.speed().meanRpm(), 2e-4 * 60 * turnsPerSecond);
        assertEquals(
                100 * RIPPLE / Math.sqrt(2),
                rotation.ripple().orElseThrow().rmsPercent(),
                0.12,
                rotation.ripple().toString());
        assertTrue(
                rotation.blips().map(b -> b.events().isEmpty()).orElse(true),
                rotation.blips().toString());
        assertTrue(
                rotation.spectrum().lines().stream()
                        .anyMatch(l -> Math.abs(l.frequencyHz() - RIPPLE_HZ) < 0.1
                                && Math.abs(l.amplitudePercent() - 100 * RIPPLE) < 0.1),
                rotation.spectrum().lines().toString());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"36-1, 17.1, INDUCTIVE", "8-1, 21.7, SINE"})
    void a_blip_is_found(String wheel, double turnsPerSecond, Wave wave) throws IOException {
        Outcome.Analysed outcome = Analysed.of(source(wheel, turnsPerSecond, wave, true), missing(wheel).length);
        Blips blips = outcome.rotation().orElseThrow().blips().orElseThrow();
        assertEquals(1, blips.events().size(), blips.toString());
        assertEquals(4, blips.events().get(0).fromSeconds(), 0.08);
        assertEquals(3, blips.events().get(0).peakPercent(), 1.2);
    }
}
