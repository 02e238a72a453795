package org.steadyshaft.simulate;

import java.io.IOException;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleSource;

/** A tacho's recording with a second channel beside it, taken by the same clock: the mains through an adapter, or the gate's pulses. */
public final class SecondChannel extends AlteredSource {
    /** What the second channel carries. */
    public enum Kind {
        MAINS,
        GATE
    }

    private final DoubleUnaryOperator voltage;
    private final double clockErrorPpm;

    /**
     * @param tacho of one channel
     * @param voltage of the second channel [V] by true time in the recording
     * @param clockErrorPpm how much faster than it claims the recorder samples
     */
    public SecondChannel(SampleSource tacho, DoubleUnaryOperator voltage, double clockErrorPpm) {
        super(tacho);
        this.voltage = voltage;
        this.clockErrorPpm = clockErrorPpm;
    }

    /** Pulses of 1 V and a length at increasing times. */
    static DoubleUnaryOperator pulses(DoubleSeries seconds, double lengthSeconds) {
        return t -> {
            int low = 0;
            int high = seconds.size();
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (seconds.get(middle) <= t) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            return low > 0 && t - seconds.get(low - 1) < lengthSeconds ? 1 : 0;
        };
    }

    @Override
    public int channels() {
        return 2;
    }

    @Override
    public String channelName(int channel) {
        return Integer.toString(channel + 1);
    }

    @Override
    public BlockReader open() throws IOException {
        BlockReader in = source.open();
        double stepSeconds = 1 / (sampleRateHz() * (1 + clockErrorPpm * 1e-6));
        return new BlockReader() {
            private long sample;

            @Override
            public int read(double[][] block) throws IOException {
                int count = in.read(new double[][] {block[0]});
                for (int i = 0; i < count; i++) {
                    block[1][i] = voltage.applyAsDouble(sample++ * stepSeconds);
                }
                return count;
            }

            @Override
            public void close() throws IOException {
                in.close();
            }
        };
    }
}
