package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.FindingCode;

/** Tones held for a second or two, one after another, are music, whatever their level; a tacho beside them is found. */
class NotesTruthTest {
    private static final double[] NOTES_HZ = {220, 330, 247, 294, 392, 262, 349, 440};

    /** A note a second, of one level, with three harmonics. */
    private static final DoubleUnaryOperator NOTES = t -> {
        double hz = NOTES_HZ[(int) t % NOTES_HZ.length];
        double value = 0;
        for (int k = 1; k <= 3; k++) {
            value += 0.3 / k * Math.sin(2 * Math.PI * k * hz * t);
        }
        return value;
    };

    private static DoubleUnaryOperator tacho(long seed) {
        DoubleUnaryOperator noise = Formula.noise(seed, 0.0003);
        return t -> 0.03 * Math.sin(2 * Math.PI * 93 * t) + noise.applyAsDouble(t);
    }

    @Test
    void notesAreNoSpeed() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(NOTES));
        assertTrue(outcome.rotation().isEmpty());
        assertEquals(FindingCode.NO_ROTATION, outcome.findings().get(0).code());
        assertTrue(outcome.findings().get(0).text().contains("from one held pitch to another"));
    }

    @Test
    void theWeakerTachoBesideThemIsChosen() {
        Outcome.Analysed outcome = Analysed.of(Formula.of(NOTES, tacho(2)));
        assertEquals(93 * 60 / 8.0, outcome.rotation().orElseThrow().speed().meanRpm(), 0.1);
    }

    /** Set-points that follow one another fast are none of that: the level goes with the speed. */
    @Test
    void aStairOfSpeedsIsNoMusic() {
        DoubleUnaryOperator noise = Formula.noise(3, 0.0005);
        DoubleUnaryOperator stairs = t -> {
            double hz = NOTES_HZ[(int) t % NOTES_HZ.length];
            return hz / 1000 * Math.sin(2 * Math.PI * hz * t) + noise.applyAsDouble(t);
        };
        assertTrue(Analysed.of(Formula.of(stairs)).findings().stream()
                .noneMatch(f -> f.text().contains("from one held pitch to another")));
    }
}
