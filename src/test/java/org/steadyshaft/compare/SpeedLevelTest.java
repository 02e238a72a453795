package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SpeedLevelTest {
    private static List<List<Double>> split(double ratio, Double... rpm) {
        return SpeedLevel.split(List.of(rpm), s -> s, ratio);
    }

    @Test
    void nearest_speeds_are_joined_first() {
        // 500 and 560 could be one, but 560 lies nearer to 600, and all three span too much
        assertEquals(List.of(List.of(500.0), List.of(560.0, 600.0)), split(1.15, 600.0, 500.0, 560.0));
        assertEquals(List.of(List.of(560.0, 564.0)), split(1.1, 564.0, 560.0));
        assertEquals(List.of(), split(1.1));
    }

    @Test
    void words() {
        assertEquals("about 582 rpm", new SpeedLevel(581, 583).words());
        assertEquals("542 to 649 rpm", new SpeedLevel(542, 649).words());
    }

    @Test
    void nonsense_is_refused() {
        assertThrows(IllegalArgumentException.class, () -> new SpeedLevel(0, 1));
        assertThrows(IllegalArgumentException.class, () -> new SpeedLevel(2, 1));
        assertThrows(IllegalArgumentException.class, () -> new SpeedLevel(1, Double.NaN));
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 100);
    }

    /** Every speed once, rising, no level wider than the ratio, equal speeds together, the same in any order. */
    @ParameterizedTest
    @MethodSource("seeds")
    void laws(int seed) {
        Random random = new Random(seed);
        List<Double> rpm = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(30); i++) {
            double speed = Math.rint(400 * Math.exp(2 * random.nextDouble()));
            rpm.add(speed);
            if (random.nextInt(4) == 0) {
                rpm.add(speed);
            }
        }
        double ratio = 1.02 + 0.3 * random.nextDouble();
        List<List<Double>> levels = SpeedLevel.split(rpm, s -> s, ratio);
        List<Double> all = levels.stream().flatMap(List::stream).toList();
        List<Double> sorted = new ArrayList<>(rpm);
        Collections.sort(sorted);
        assertEquals(sorted, all, "seed " + seed);
        for (int i = 0; i < levels.size(); i++) {
            List<Double> level = levels.get(i);
            assertTrue(level.get(level.size() - 1) <= ratio * level.get(0), "seed " + seed + ": " + level);
            boolean parted = i > 0 && levels.get(i - 1).contains(level.get(0));
            assertTrue(!parted, "equal speeds are parted with seed " + seed);
        }
        Collections.shuffle(rpm, random);
        assertEquals(levels, SpeedLevel.split(rpm, s -> s, ratio), "seed " + seed);
    }
}
