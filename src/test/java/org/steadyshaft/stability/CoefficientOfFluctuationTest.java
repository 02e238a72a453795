package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Tachometer;

/**
 * The peak-to-peak ripple is the coefficient of fluctuation of machine design, (n_max - n_min) / n_mean.
 *
 * <p>Source: definition in the flywheel chapters of machine design handbooks, from memory. For a sine swing of amplitude a
 * it is 2 a.
 *
 * <p>Tolerances: a sine of 2 Hz seen 160 times a second may miss each peak by at most 1 - cos(pi 2 / 160) = 0.08 % of itself;
 * the speed is averaged over time by turns, which moves the mean by a^2 / 2 at most.
 */
class CoefficientOfFluctuationTest {
    private static final Tachometer TACHO = new Tachometer(8);
    private static final double MEAN_RPM = 1200;

    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.01, 0.05})
    void ofASineSwing(double amplitude) {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 10, t -> MEAN_RPM * (1 + amplitude * Math.cos(4 * Math.PI * t)));
        double expected = 200 * amplitude;
        assertEquals(expected, peakToPeakPercent(track, List.of()), expected * (0.0008 + amplitude * amplitude));
    }

    /** 1050 and 970 rpm about a mean of 1000 rpm: 8 %, symmetrical in time, so that the straight line through it is level. */
    @Test
    void ofUnequalPeaks() {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 9, t -> {
            double away = Math.abs(t - 4.5);
            return away < 0.6 ? 1050 : away < 1.6 ? 970 : 1000;
        });
        double mean = track.meanRpm(MadeTrack.whole(track).get(0));
        assertEquals(1000, mean, 0.5, "the mean that was meant");
        assertEquals(100 * (1050 - 970) / mean, peakToPeakPercent(track, List.of()), 0.01);
    }

    /** A creep is no fluctuation: 3 % in ten seconds leave the swing of 1 % alone. */
    @Test
    void withoutTheDrift() {
        SpeedTrack track =
                MadeTrack.ofSpeed(TACHO, 10, t -> MEAN_RPM * (1 + 0.003 * (t - 5) + 0.01 * Math.cos(4 * Math.PI * t)));
        assertEquals(2, peakToPeakPercent(track, List.of()), 0.005);
    }

    /** Nor is a blip, where it is named; where it is not, it counts. */
    @Test
    void withoutTheBlips() {
        SpeedTrack track = MadeTrack.ofSpeed(
                TACHO, 10, t -> MEAN_RPM * (Math.abs(t - 5) < 0.05 ? 1.2 : 1 + 0.01 * Math.cos(4 * Math.PI * t)));
        List<Blip> named = List.of(
                new Blip(4.9, 5, 5.1, 20, new BlipShape(0.01, OptionalDouble.empty(), 0), BlipCause.values()[0]));
        assertEquals(2, peakToPeakPercent(track, named), 0.02);
        assertEquals(21, peakToPeakPercent(track, List.of()), 0.2);
    }

    @Test
    void ofAnEvenTurn() {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 10, t -> MEAN_RPM);
        assertEquals(0, peakToPeakPercent(track, List.of()), 1e-9);
    }

    private static double peakToPeakPercent(SpeedTrack track, List<Blip> blips) {
        return new RippleMeter()
                .measure(track, MadeTrack.whole(track), blips)
                .orElseThrow()
                .peakToPeakPercent();
    }
}
