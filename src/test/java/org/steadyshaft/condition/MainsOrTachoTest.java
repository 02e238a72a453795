package org.steadyshaft.condition;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;

/**
 * A tone at the mains frequency: what a grid can do is never taken for a shaft; a shaft is told where anything tells. How far a grid
 * wanders is common practice.
 */
class MainsOrTachoTest {
    @ParameterizedTest(name = "{0} s, {1} Hz, touched {2}")
    @CsvSource({"10, 50, false", "10, 50, true", "30, 60, true", "60, 50, false", "60, 50, true", "300, 50, true"})
    void a_grid_is_the_mains(double seconds, double mainsHz, boolean touched) throws IOException {
        for (int seed = 100; seed < 100 + Thorough.count(2, 6); seed++) {
            MadeMains made = MadeMains.grid(mainsHz, seconds, touched, seed);
            assertEquals(MainsOrTacho.Verdict.MAINS, made.verdict(mainsHz, 8), "seed " + seed);
        }
    }

    @ParameterizedTest(name = "{0} Hz, {1} pole pairs, wander {2}, poles uneven by {3}, hum {4}")
    @CsvSource({
        "50, 8, 3e-5, 0.003, 0",
        "50, 8, 3e-5, 0.003, 0.4",
        "50.1, 8, 1e-4, 0.005, 0.1",
        "50, 12, 1e-4, 0.005, 0",
        "100, 8, 1e-4, 0.003, 0.2",
        "50, 8, 1e-3, 0, 0.1",
        "100, 8, 1e-3, 0, 0.4"
    })
    void a_shaft_is_told(double hz, int poles, double wander, double pitch, double hum) throws IOException {
        for (int seed = 0; seed < Thorough.count(2, 4); seed++) {
            MadeMains made = MadeMains.tacho(hz, poles, 30, wander, pitch, hum, seed);
            assertEquals(MainsOrTacho.Verdict.TACHO, made.verdict(50, 8), "seed " + seed);
        }
    }

    /** Nothing tells an even wheel at a steadier speed than any grid's from the mains: it is not guessed. */
    @ParameterizedTest
    @ValueSource(doubles = {50, 100})
    void what_nothing_tells_is_not_guessed(double hz) throws IOException {
        assertEquals(
                MainsOrTacho.Verdict.MAINS,
                MadeMains.tacho(hz, 8, 30, 1e-5, 0, 0, 1).verdict(50, 8));
    }

    @ParameterizedTest
    @ValueSource(doubles = {45, 51, 98, 130, 213})
    void a_tone_elsewhere_is_not_asked(double hz) throws IOException {
        assertEquals(
                MainsOrTacho.Verdict.ELSEWHERE,
                MadeMains.tacho(hz, 8, 10, 1e-3, 0, 0, 1).verdict(50, 8));
    }
}
