package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Cosine and sine in turns against those of the Java library, whose argument in radians is rounded for many turns. */
class TurnsTest {
    private static final double ERROR = 4e-15;

    @ParameterizedTest
    @ValueSource(doubles = {0, 1e-6, 0.5, 37.25, 1013})
    void asTheLibrary(double hz) {
        Random random = new Random(5);
        int count = 20_000;
        double[] time = new double[count + 3];
        for (int i = 0; i < time.length; i++) {
            time[i] = i % 2 == 0 ? i / 64.0 : 30 * random.nextDouble();
        }
        double[] cosine = new double[count];
        double[] sine = new double[count];
        Turns.of(time, 3, count, 4, hz, cosine, sine);
        for (int i = 0; i < count; i++) {
            double turns = hz * (time[3 + i] - 4);
            double radians = 2 * Math.PI * (turns - Math.rint(turns));
            assertEquals(Math.cos(radians), cosine[i], ERROR, "cosine of " + turns + " turns");
            assertEquals(Math.sin(radians), sine[i], ERROR, "sine of " + turns + " turns");
        }
    }
}
