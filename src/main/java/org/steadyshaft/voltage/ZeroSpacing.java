package org.steadyshaft.voltage;

import java.util.Optional;
import org.steadyshaft.signal.DoubleSeries;

/**
 * The spacing of the rising zeros of a turn's voltage: how unevenly the poles stand, as the cycles are counted. A turn with another number
 * of rising zeros than pole pairs (a missing pole, a second harmonic of some size) has none.
 */
public final class ZeroSpacing {
    private static final double TURN = 2 * Math.PI;

    /** Steps a pole pair in which zeros are looked for. */
    private static final int STEPS = 64;

    private static final int HALVINGS = 40;

    private ZeroSpacing() {}

    /**
     * By how much each pole pair's angle is larger than the even share [%]; the sum is 0.
     *
     * @return as many as pole pairs; empty if the turn has another number of rising zeros
     */
    public static Optional<DoubleSeries> percent(TurnVoltage turn, int polePairs) {
        int steps = STEPS * polePairs;
        double[] zero = new double[polePairs];
        int found = 0;
        double before = turn.value(0);
        for (int i = 1; i <= steps; i++) {
            double after = turn.value(i * TURN / steps);
            if (before < 0 && after >= 0) {
                if (found == polePairs) {
                    return Optional.empty();
                }
                zero[found++] = zero(turn, (i - 1) * TURN / steps, i * TURN / steps);
            }
            before = after;
        }
        if (found != polePairs) {
            return Optional.empty();
        }
        double[] percent = new double[polePairs];
        for (int i = 0; i < polePairs; i++) {
            double next = i + 1 < polePairs ? zero[i + 1] : zero[0] + TURN;
            percent[i] = 100 * ((next - zero[i]) * polePairs / TURN - 1);
        }
        return Optional.of(DoubleSeries.of(percent));
    }

    private static double zero(TurnVoltage turn, double from, double to) {
        double low = from;
        double high = to;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = 0.5 * (low + high);
            if (turn.value(middle) < 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }
}
