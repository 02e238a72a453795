package org.steadyshaft.voltage;

import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/**
 * Whether the turn is as long as was said. With a wrong number of pole pairs the poles' spacing is no part of the turn's voltage: it stays
 * behind as lines at fc / q and its multiples, q the true number. Two of these that no multiple of the mains explains tell q.
 */
public final class TurnCount {
    private static final int MOST = 24;

    /** Different harmonics of the true turn that must show. */
    private static final int FEWEST = 2;

    /** A line stands on a harmonic if it is no further off than this many times what a piece resolves. */
    private static final double WIDTHS = 1;

    /** Smaller lines than this tell nothing [%]. */
    private static final double LEAST_PERCENT = 0.05;

    private TurnCount() {}

    /** The number of pole pairs that the lines speak for; empty if they speak for none but the one that was said. */
    public static OptionalInt likelier(WaveformReading reading) {
        int said = reading.polePairs();
        double cycleHz = said * reading.shaftHz();
        double reach = WIDTHS / reading.pieceSeconds();
        for (int q = 2; q <= MOST; q++) {
            if (said % q == 0) {
                continue;
            }
            Set<Integer> harmonics = new TreeSet<>();
            int strays = 0;
            for (SpeedLine line : reading.lines()) {
                if (line.mainsMultiple() > 0 || line.amplitudePercent() < LEAST_PERCENT) {
                    continue;
                }
                double place = line.hz() * q / cycleHz;
                int harmonic = (int) Math.rint(place);
                if (Math.abs(place - harmonic) * cycleHz / q < reach && harmonic % q != 0) {
                    int folded = harmonic % q;
                    harmonics.add(Math.min(folded, q - folded));
                } else {
                    strays++;
                }
            }
            if (harmonics.size() >= FEWEST && strays == 0 && isPrimitive(harmonics, q)) {
                return OptionalInt.of(q);
            }
        }
        return OptionalInt.empty();
    }

    /** Whether the harmonics need the whole of q: no smaller number holds them all. */
    private static boolean isPrimitive(Set<Integer> harmonics, int q) {
        int common = q;
        for (int harmonic : harmonics) {
            while (harmonic != 0) {
                int rest = common % harmonic;
                common = harmonic;
                harmonic = rest;
            }
        }
        return common == 1;
    }
}
