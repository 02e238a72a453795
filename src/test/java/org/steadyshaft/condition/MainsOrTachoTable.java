package org.steadyshaft.condition;

import java.io.IOException;
import java.util.Locale;

/** Prints how often a tone at the mains frequency is told for what it is; run by hand. */
final class MainsOrTachoTable {
    private MainsOrTachoTable() {}

    public static void main(String[] arguments) throws IOException {
        int runs = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 10;
        for (double hz : new double[] {50, 100, 150}) {
            for (double wander : new double[] {3e-5, 1e-4, 3e-4, 1e-3}) {
                for (double pitch : new double[] {0, 0.003, 0.01}) {
                    for (double hum : new double[] {0, 0.1, 0.4}) {
                        int tacho = 0;
                        for (int seed = 0; seed < runs; seed++) {
                            MadeMains made = MadeMains.tacho(hz, 8, 30, wander, pitch, hum, seed);
                            tacho += made.verdict(50, 8) == MainsOrTacho.Verdict.MAINS ? 0 : 1;
                        }
                        System.out.printf(
                                Locale.ROOT,
                                "tacho %4.0f Hz, wander %.3f %%, poles uneven by %.1f %%, hum %2.0f %%: told %3.0f %%%n",
                                hz,
                                100 * wander,
                                100 * pitch,
                                100 * hum,
                                100.0 * tacho / runs);
                    }
                }
            }
        }
        for (double seconds : new double[] {10, 60, 600, 7200}) {
            int times = seconds > 1000 ? 1 : 4 * runs;
            for (boolean touched : new boolean[] {false, true}) {
                int wrong = 0;
                for (int seed = 0; seed < times; seed++) {
                    MadeMains made = MadeMains.grid(50, seconds, touched, seed);
                    wrong += made.verdict(50, 8) == MainsOrTacho.Verdict.MAINS ? 0 : 1;
                }
                System.out.printf(
                        Locale.ROOT,
                        "grid %5.0f s, touched %b: taken for a shaft %d of %d%n",
                        seconds,
                        touched,
                        wrong,
                        times);
            }
        }
    }
}
