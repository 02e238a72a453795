package org.steadyshaft.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.CycleTimes;

/** Wheels with missing teeth (common practice) and other breaks, which are none. */
class TurnBreaksTest {
    /** A wheel such as "36-2-1": a tooth missing twice, at 0 and half way, the first time two of them. */
    private static CycleTimes wheel(String name, int turns, double ripple, double bent) {
        String[] parts = name.split("-");
        int teeth = Integer.parseInt(parts[0]);
        boolean[] missing = new boolean[teeth];
        for (int part = 1; part < parts.length; part++) {
            int at = (part - 1) * teeth / 3;
            for (int k = 0; k < Integer.parseInt(parts[part]); k++) {
                missing[at + k] = true;
            }
        }
        CycleTimes.Builder times = new CycleTimes.Builder();
        int last = -1;
        for (int i = teeth / 2; i < turns * teeth; i++) {
            if (missing[i % teeth]) {
                continue;
            }
            if (last >= 0 && i - last > 1) {
                times.breakHere();
            }
            boolean beside = missing[(i + 1) % teeth] || missing[(i + teeth - 1) % teeth];
            times.add(time(i + (beside ? bent : 0), teeth, ripple));
            last = i;
        }
        return times.build();
    }

    /** 20 turns a second with a swing of the speed three times a second. */
    private static double time(double tooth, int teeth, double ripple) {
        double even = tooth / teeth / 20;
        return even + ripple / (2 * Math.PI * 3) * Math.sin(2 * Math.PI * 3 * even);
    }

    @ParameterizedTest
    @ValueSource(strings = {"60-2", "36-1", "12-1", "36-2-1", "24-1", "16-1", "8-1", "4-1", "6-1", "58-2"})
    void missing_teeth_are_a_pattern_of_the_turn(String name) {
        TurnBreaks.Found found =
                new TurnBreaks().find(wheel(name, 30, 0.02, 0.1)).orElseThrow();

        String[] parts = name.split("-");
        int teeth = Integer.parseInt(parts[0]);
        assertEquals(teeth, found.pitchesATurn());
        int missing = IntStream.range(1, parts.length)
                .map(p -> Integer.parseInt(parts[p]))
                .sum();
        assertEquals(missing, found.missingATurn());
        assertEquals(1, found.cycles().segments());
        double seconds = found.cycles().timeSeconds(found.cycles().crossings() - 1)
                - found.cycles().timeSeconds(0);
        // the ends may lie beside a break, where the wave is bent by a tenth of a pitch
        assertEquals(20, found.cycles().cycles() / seconds / teeth, 20 * (0.02 / 25 + 0.1 / 29 / teeth + 0.02 / 29));
    }

    /** Lost contacts at random places are no pattern. */
    @Test
    void random_breaks_are_none() {
        for (int seed = 0; seed < 50; seed++) {
            Random random = new Random(seed);
            CycleTimes.Builder times = new CycleTimes.Builder();
            int tooth = 0;
            for (int i = 0; i < 2000; i++) {
                times.add(time(tooth, 8, 0.01));
                boolean lost = random.nextDouble() < 0.05;
                if (lost) {
                    times.breakHere();
                }
                tooth += lost ? 2 : 1;
            }
            assertTrue(new TurnBreaks().find(times.build()).isEmpty(), "seed " + seed);
        }
    }

    @Test
    void an_unbroken_row_has_none() {
        CycleTimes.Builder times = new CycleTimes.Builder();
        for (int i = 0; i < 500; i++) {
            times.add(time(i, 8, 0.01));
        }
        assertEquals(Optional.empty(), new TurnBreaks().find(times.build()));
    }

    /** A gap of the recorder within a run breaks the row and not the pattern. */
    @Test
    void a_gap_of_another_sort_stays_a_break() {
        CycleTimes whole = wheel("36-1", 40, 0.01, 0);
        CycleTimes.Builder times = new CycleTimes.Builder();
        for (int segment = 0; segment < whole.segments(); segment++) {
            times.breakHere();
            for (int i = whole.firstOf(segment); i < whole.endOf(segment); i++) {
                double at = whole.timeSeconds(i);
                if (at > 0.803 && at < 0.951) {
                    times.breakHere();
                } else {
                    times.add(at);
                }
            }
        }
        TurnBreaks.Found found = new TurnBreaks().find(times.build()).orElseThrow();
        assertEquals(36, found.pitchesATurn());
        assertEquals(2, found.cycles().segments());
    }
}
