package org.steadyshaft.poles;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.ArraySource;

/** A shaft turned by hand, unevenly, with rests: voltages made from a flux that depends on the angle alone. */
class HandTurnTest {
    private static final double RATE_HZ = 8000;

    /**
     * @param turns by time [s]
     * @param noiseVolts rms; a turn a second gives a peak of one volt
     */
    private static HandTurn counted(
            int pairs, double seconds, DoubleUnaryOperator turns, double noiseVolts, double offsetVolts)
            throws IOException {
        Random random = new Random(pairs);
        double[] volts = new double[(int) (seconds * RATE_HZ)];
        double[] pole = new double[pairs];
        for (int i = 0; i < pairs; i++) {
            pole[i] = 1 + 0.04 * random.nextGaussian();
        }
        double before = flux(pole, turns.applyAsDouble(0));
        for (int i = 0; i < volts.length; i++) {
            double flux = flux(pole, turns.applyAsDouble((i + 1) / RATE_HZ));
            volts[i] = (flux - before) * RATE_HZ
                    + noiseVolts * random.nextGaussian()
                    + offsetVolts
                    + 0.05 * Math.sin(2 * Math.PI * 50 * i / RATE_HZ);
            before = flux;
        }
        return HandTurn.count(new ArraySource("hand", RATE_HZ, null, volts), 0);
    }

    /** Uneven poles; the flux has no jump between two of them, since both are at zero there. */
    private static double flux(double[] pole, double turns) {
        double cycle = turns * pole.length;
        int at = (int) Math.floorMod((long) Math.floor(cycle), (long) pole.length);
        return pole[at] * Math.sin(2 * Math.PI * cycle) / (2 * Math.PI * pole.length);
    }

    /** Turn after turn with pushes: fast, slow, a rest between. */
    private static DoubleUnaryOperator pushes(double turns, double seconds) {
        return t -> {
            double whole = turns * Math.min(1, Math.max(0, (t - 1) / (seconds - 2)));
            double pushes = Math.round(3 * turns) / 1.0;
            // the speed falls to a tenth between pushes, never below
            return whole + 0.9 * turns / (2 * Math.PI * pushes) * Math.sin(2 * Math.PI * pushes * whole / turns);
        };
    }

    @ParameterizedTest(name = "{0} pole pairs, {1} turns in {2} s")
    @CsvSource({"8, 10, 22", "8, 10, 12", "4, 5, 9", "1, 12, 14", "2, 6, 10", "12, 10, 20", "6, 10, 15", "16, 12, 25"})
    void anUnevenHandIsCounted(int pairs, double turns, double seconds) throws IOException {
        HandTurn turn = counted(pairs, seconds, pushes(turns, seconds), 0.02, 0.1);
        PoleCount count = PoleCount.of(turn, turns);
        assertEquals(pairs * turns, turn.cycles() + 0.5 * turn.endCycles(), 1.01, turn.toString());
        assertTrue(count.isTrusted(), turn.toString());
        assertTrue(count.candidates().contains(pairs), count.toString());
        if (turns >= count.turnsNeeded()) {
            assertTrue(count.isTold(), count.toString());
        }
    }

    /** Half a minute's rest between two times five turns changes nothing. */
    @Test
    void aRestIsNoTurn() throws IOException {
        DoubleUnaryOperator turns = t -> t < 6
                ? pushes(5, 7).applyAsDouble(t)
                : t < 30 ? 5 : 5 + pushes(5, 7).applyAsDouble(t - 29);
        HandTurn turn = counted(8, 37, turns, 0.02, 0.05);
        assertEquals(80, turn.cycles() + 0.5 * turn.endCycles(), 1.01, turn.toString());
        assertTrue(turn.backSeconds().isEmpty(), turn.toString());
    }

    /** Back by a third of a turn in the middle: told with its place, and no number is given. */
    @ParameterizedTest
    @ValueSource(doubles = {0.31, 0.37, 0.43, 1.3})
    void turningBackIsTold(double back) throws IOException {
        DoubleUnaryOperator turns =
                t -> t < 6 ? Math.max(0, t - 1) : t < 7 ? 5 - back * (t - 6) : t < 13 ? 5 - back + (t - 7) : 11 - back;
        HandTurn turn = counted(8, 14, turns, 0.01, 0);
        assertFalse(turn.backSeconds().isEmpty(), turn.toString());
        assertTrue(
                turn.backSeconds().stream().anyMatch(t -> Math.abs(t - 6) < 0.3 || Math.abs(t - 7) < 0.3),
                turn.toString());
        assertFalse(PoleCount.of(turn, 11 - back).isTold());
    }

    /** One turn of sixteen pole pairs fits several numbers: none is given, but how many turns would tell. */
    @Test
    void tooFewTurnsAreRefused() throws IOException {
        PoleCount count = PoleCount.of(counted(16, 5, pushes(1, 5), 0.02, 0), 1);
        assertFalse(count.isTold(), count.toString());
        assertTrue(count.candidates().contains(16) && count.candidates().size() > 1, count.toString());
        assertTrue(count.turnsNeeded() > 1 && count.turnsNeeded() <= 10, count.turnsNeeded() + " turns");
    }

    /** Ten turns told as nine: no whole number fits. */
    @Test
    void miscountedTurnsAreToldOrStayAmongTheCandidates() throws IOException {
        PoleCount count = PoleCount.of(counted(8, 22, pushes(10, 22), 0.02, 0), 9.5);
        assertFalse(count.candidates().contains(8), count.toString());
        assertFalse(count.isTold(), count.toString());
    }

    @Test
    void noiseIsNoTacho() throws IOException {
        HandTurn turn = counted(8, 10, t -> 0, 0.05, 0.1);
        assertFalse(PoleCount.of(turn, 10).isTold(), turn.toString());
    }

    /** A twelfth of a turn a second of one pole pair: half a cycle takes six seconds. */
    @Test
    void tooSlowAHandIsRefused() throws IOException {
        HandTurn turn = counted(1, 100, t -> t / 12, 0.001, 0);
        assertFalse(PoleCount.of(turn, 100 / 12.0).isTold(), turn.toString());
    }

    /** n = 120 f / m (a list of check values that came with the task). */
    @ParameterizedTest
    @CsvSource({
        "50, 180, 33.3333",
        "50, 133, 45.1128",
        "50, 77, 77.9221",
        "60, 216, 33.3333",
        "60, 160, 45",
        "60, 92, 78.2609"
    })
    void strobeSpeeds(double mainsHz, int marks, double rpm) {
        assertEquals(rpm, new Strobe(marks, mainsHz).rpm(), 5e-5);
        assertEquals(3 * rpm, new Strobe(marks, mainsHz).standing(3).get(2), 2e-4);
    }
}
