package org.steadyshaft.response;

import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;

/** Turns a shaft's angle into the track that a tacho of eight pole pairs without any error would give. */
final class SampledAnswer {
    private static final int POLE_PAIRS = 8;

    private SampledAnswer() {}

    /** @param turns angle at a time [turns], increasing */
    static SpeedTrack track(DoubleUnaryOperator turns, double endSeconds) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        DoubleSeries.Builder speeds = new DoubleSeries.Builder();
        int last = (int) Math.floor(POLE_PAIRS * turns.applyAsDouble(endSeconds));
        double before = 0;
        times.add(0);
        for (int k = 1; k <= last; k++) {
            double time = crossing(turns, (double) k / POLE_PAIRS, before);
            times.add(time);
            speeds.add(60.0 / POLE_PAIRS / (time - before));
            before = time;
        }
        return new SpeedTrack(times.build(), speeds.build());
    }

    /** By halving: the cycle is surely shorter than a second. */
    private static double crossing(DoubleUnaryOperator turns, double angle, double after) {
        double low = after;
        double high = after + 1;
        for (int i = 0; i < 50; i++) {
            double middle = 0.5 * (low + high);
            if (turns.applyAsDouble(middle) < angle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }
}
