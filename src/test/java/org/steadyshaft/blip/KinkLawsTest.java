package org.steadyshaft.blip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

class KinkLawsTest {
    @Test
    void theBendIsTheIntegralOfTheChange() {
        Random random = new Random(3);
        for (int i = 0; i < 200; i++) {
            double rise = 0.003 + 0.05 * random.nextDouble();
            double back = 0.02 + random.nextDouble();
            double ringing = random.nextBoolean() ? 0 : 50 * random.nextDouble();
            Kink kink = new Kink(1, 1, rise, back, ringing);
            double t = 0.95 + 2 * random.nextDouble();
            double h = 1e-6;
            double slope = (kink.bendAt(t + h) - kink.bendAt(t - h)) / (2 * h);
            assertEquals(kink.changeAt(t), slope, 1e-4, kink + " at " + t);
            assertEquals(kink.bendInAll(), kink.bendAt(100), 1e-12);
        }
        assertEquals(0.5 * 0.01 + 0.2, Kink.bend(100, 0.01, 0.2), 1e-12);
        assertEquals(0, Kink.bend(-1, 0.01, 0.2));
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Kink(1, 2, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> new Kink(1, Double.NaN, 0.01, 1));
        assertThrows(IllegalArgumentException.class, () -> new Kink(1, 2, 0.01, 1, -1));
    }

    /** Twenty seconds at 100 cycles a second, 8 to a turn, with a blip of 4 % at 5 s in the cycles' speeds. */
    private static SpeedTrack track(Kink kink) {
        CycleTimes.Builder cycles = new CycleTimes.Builder();
        DoubleSeries.Builder rpm = new DoubleSeries.Builder();
        for (int i = 0; i <= 2000; i++) {
            cycles.add(0.01 * i);
        }
        for (int i = 0; i < 2000; i++) {
            double mean = (kink.bendAt(0.01 * (i + 1)) - kink.bendAt(0.01 * i)) / 0.01;
            rpm.add(750 * (1 + kink.percent() / 100 * mean));
        }
        return new SpeedTrack(cycles.build(), rpm.build());
    }

    @Test
    void theCleanTrackIsLevelWhereABlipWas() {
        Kink kink = new Kink(5.003, 4, 0.012, 0.3);
        SpeedTrack clean = CleanTrack.of(track(kink), List.of(kink));
        for (int i = 0; i < clean.size(); i++) {
            assertEquals(750, clean.speedRpm(i), 0.05, "cycle " + i);
        }
    }

    @Test
    void aBlipHasTheCauseThatItsOnsetAndSignSay() {
        ShaftEvents.Sensitivity looked = new ShaftEvents.Sensitivity(new Stretch(0, 20), 0.4);
        Kink up = new Kink(5, 4, 0.012, 0.3);
        Kink down = new Kink(9, -3, 0.02, 0.3);
        Blips blips = new BlipMaker(50)
                .make(new ShaftEvents(List.of(up, down), List.of(), List.of(looked)), track(up))
                .orElseThrow();
        assertEquals(BlipCause.EXTRA_CONDUCTION, blips.events().get(0).cause());
        assertEquals(BlipCause.MISSED_FIRING, blips.events().get(1).cause());
        assertEquals(5.012, blips.events().get(0).peakSeconds(), 1e-9);
        assertTrue(blips.events().get(0).toSeconds() <= 9);
        assertEquals(20.0 / 60, blips.minutes(), 1e-9);
        assertEquals(0.4, blips.smallestPercent());
        assertTrue(new BlipMaker(50).make(ShaftEvents.NONE, track(up)).isEmpty());
    }
}
