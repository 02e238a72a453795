package org.steadyshaft.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Rows of crossings with breaks. */
class CycleTimesTest {
    private static CycleTimes made(Random random) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        for (int i = 0; i < 400; i++) {
            times.add(0.01 * i);
            if (random.nextInt(50) == 0) {
                times.breakHere();
            }
        }
        return times.build();
    }

    /** The plain form: every crossing asks every stretch. */
    private static CycleTimes plain(CycleTimes cycles, List<Stretch> stretches) {
        CycleTimes.Builder kept = new CycleTimes.Builder();
        for (int segment = 0; segment < cycles.segments(); segment++) {
            kept.breakHere();
            for (int i = cycles.firstOf(segment); i < cycles.endOf(segment); i++) {
                double time = cycles.timeSeconds(i);
                if (stretches.stream().anyMatch(s -> s.contains(time))) {
                    kept.breakHere();
                } else {
                    kept.add(time);
                }
            }
        }
        return kept.build();
    }

    @Test
    void withoutStretchesInAnyOrderThatMayOverlap() {
        for (int seed = 0; seed < 50; seed++) {
            Random random = new Random(seed);
            CycleTimes cycles = made(random);
            List<Stretch> stretches = new ArrayList<>();
            for (int i = 0; i < 12; i++) {
                double from = 0.01 * random.nextInt(400);
                stretches.add(new Stretch(from, from + (random.nextBoolean() ? 0 : 0.3 * random.nextDouble())));
            }
            CycleTimes expected = plain(cycles, stretches);
            CycleTimes found = cycles.without(stretches);
            assertEquals(expected.segments(), found.segments(), "seed " + seed);
            assertEquals(expected.crossings(), found.crossings(), "seed " + seed);
            for (int i = 0; i < expected.crossings(); i++) {
                assertEquals(expected.timeSeconds(i), found.timeSeconds(i));
            }
            for (int segment = 0; segment < expected.segments(); segment++) {
                assertEquals(expected.firstOf(segment), found.firstOf(segment));
            }
        }
    }

    /** A track is unbroken from one cycle to another where every cycle follows the one before. */
    @Test
    void unbrokenIsWhereEveryCycleFollows() {
        CycleTimes cycles = made(new Random(3));
        double[] rpm = new double[cycles.cycles()];
        for (int i = 0; i < rpm.length; i++) {
            rpm[i] = i;
        }
        SpeedTrack track = new SpeedTrack(cycles, DoubleSeries.of(rpm));
        assertTrue(cycles.segments() > 2, "segments");
        assertFalse(track.isUnbroken(0, track.size() - 1));
        for (int first = 0; first < track.size(); first += 7) {
            boolean unbroken = true;
            for (int last = first; last < track.size(); last++) {
                unbroken &= last == first || track.follows(last);
                assertEquals(unbroken, track.isUnbroken(first, last), first + " to " + last);
            }
        }
        assertEquals(List.of(5.0, 6.0), List.of(track.speedsRpm(5, 7)[0], track.speedsRpm(5, 7)[1]));
    }
}
