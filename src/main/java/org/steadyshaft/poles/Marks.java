package org.steadyshaft.poles;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * Pulses of a channel that marks the turns, one a turn: a switch, a light barrier, a magnet and a coil.
 *
 * @param seconds when they begin
 */
public record Marks(List<Double> seconds) {
    /** A pulse begins where the voltage has risen by this share of its range, and ends where it has fallen back below the other. */
    private static final double BEGINS = 0.6;

    private static final double ENDS = 0.4;

    public Marks {
        seconds = List.copyOf(seconds);
    }

    /**
     * Finds them.
     *
     * @throws IOException if the recording cannot be read
     */
    public static Marks of(SampleSource source, int channel) throws IOException {
        double[] range = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
        read(source, channel, (i, v) -> {
            range[0] = Math.min(range[0], v);
            range[1] = Math.max(range[1], v);
        });
        List<Double> begins = new ArrayList<>();
        boolean[] in = {true};
        double span = range[1] - range[0];
        read(source, channel, (i, v) -> {
            double share = (v - range[0]) / span;
            if (!in[0] && share >= BEGINS) {
                begins.add(i / source.sampleRateHz());
                in[0] = true;
            } else if (in[0] && share <= ENDS) {
                in[0] = false;
            }
        });
        return new Marks(begins);
    }

    /** What is done with a sample. */
    private interface Sample {
        void at(long index, double value);
    }

    private static void read(SampleSource source, int channel, Sample sample) throws IOException {
        double[][] block = new double[source.channels()][1 << 14];
        long at = 0;
        try (BlockReader reader = source.open()) {
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                for (int i = 0; i < count; i++) {
                    sample.at(at++, block[channel][i]);
                }
            }
        }
    }

    /** The count between the first mark and the last: whole turns, without anybody's eye. */
    public PoleCount poles(HandTurn turn) {
        int turns = seconds.size() - 1;
        double cycles = turn.cyclesBetween(seconds.get(0), seconds.get(turns));
        // an extreme beside either mark: half a cycle at each end
        return new PoleCount(turn, turns, Math.max(0, cycles - 0.75) / turns, (cycles + 0.75) / turns);
    }
}
