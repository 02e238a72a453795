package org.steadyshaft.ripple;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.stability.MadeTrack;

/** Swings slower than a section of the spectrum are told where the record is long enough, and a wander is none. */
class SlowLineFinderTest {
    private static final Tachometer TACHO = new Tachometer(8);

    private static List<SlowLineFinder.Tone> tones(SpeedTrack track) {
        return new SlowLineFinder(20)
                .find(track, MadeTrack.whole(track), List.of())
                .tones();
    }

    @ParameterizedTest
    @CsvSource({"0.06, 0.9, 150", "0.08, 0.5, 110", "0.15, 1.5, 90", "0.3, 0.4, 60", "1.7, 0.2, 20"})
    void aSwingIsToldWithItsFrequencyAndSize(double hz, double percent, double seconds) {
        Random random = new Random(3);
        SpeedTrack track = MadeTrack.ofSpeed(
                TACHO,
                seconds,
                t -> 900 * (1 + percent / 100 * Math.sin(2 * Math.PI * hz * t + 1) + 3e-4 * random.nextGaussian()));
        SlowLineFinder.Tone largest = tones(track).get(0);
        assertEquals(hz, largest.hz(), 0.1 * hz);
        assertEquals(percent, largest.percent(), 0.1 * percent);
        assertEquals(1, tones(track).size(), tones(track).toString());
    }

    /** A wander of the kind that forgets itself within seconds (first-order autoregression); twenty records of two minutes. */
    @Test
    void aWanderIsNoSlowSwing() {
        int told = 0;
        for (long seed = 1; seed <= 20; seed++) {
            Random random = new Random(seed);
            double[] wander = new double[2000];
            double keep = Math.exp(-0.1 / (1 + seed % 5 * 2));
            for (int i = 1; i < wander.length; i++) {
                wander[i] = keep * wander[i - 1] + Math.sqrt(1 - keep * keep) * 0.004 * random.nextGaussian();
            }
            SpeedTrack track = MadeTrack.ofSpeed(TACHO, 120, t -> {
                int i = (int) (t / 0.1);
                return 900 * (1 + wander[i] + (t / 0.1 - i) * (wander[i + 1] - wander[i]));
            });
            told += tones(track).stream().anyMatch(t -> t.hz() < 0.25) ? 1 : 0;
        }
        assertEquals(0, told);
    }

    @Test
    void aShortRecordTellsNoSlowSwing() {
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 25, t -> 900 * (1 + 0.01 * Math.sin(2 * Math.PI * 0.08 * t)));
        assertTrue(
                tones(track).stream().noneMatch(t -> t.hz() < 0.15),
                tones(track).toString());
    }
}
