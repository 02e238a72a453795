package org.steadyshaft.front;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.LongToDoubleFunction;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * A recording of one channel made of a formula.
 *
 * @param opensAnywhere whether it behaves as a file of plain samples or as one that has to be read from its beginning
 */
record MadeSource(double sampleRateHz, long samples, boolean opensAnywhere, LongToDoubleFunction value)
        implements SampleSource {
    @Override
    public String name() {
        return "made";
    }

    @Override
    public int channels() {
        return 1;
    }

    @Override
    public String channelName(int channel) {
        return "1";
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "made",
                "double",
                "FS",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return List.of();
    }

    @Override
    public BlockReader open() {
        return openAt(0);
    }

    @Override
    public BlockReader openAt(long sample) {
        return new BlockReader() {
            private long at = sample;

            @Override
            public int read(double[][] block) {
                int count = (int) Math.min(Math.min(1000, block[0].length), samples - at);
                for (int i = 0; i < count; i++) {
                    block[0][i] = value.applyAsDouble(at++);
                }
                return count;
            }

            @Override
            public void close() {
                // nothing is held open
            }
        };
    }
}
