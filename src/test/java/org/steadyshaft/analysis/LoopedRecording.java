package org.steadyshaft.analysis;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/**
 * A stretch of a 16-bit recording held in memory and played over and over, so that reading costs next to nothing and a long
 * recording takes no more room than a short one. The stretch should hold whole cycles: the seam is then no jump.
 */
final class LoopedRecording implements SampleSource {
    private static final double STEP = 1.0 / 32768;

    private final SampleSource stretch;
    private final short[] values;
    private final long samples;

    /** @param stretch one channel of full scale 1, rounded to 16 bits */
    LoopedRecording(SampleSource stretch, double seconds) {
        this.stretch = stretch;
        this.values = new short[Math.toIntExact(stretch.samples())];
        this.samples = Math.round(seconds * stretch.sampleRateHz());
        try {
            double[] all;
            try (SampleRange range = new SampleRange(stretch, 0)) {
                all = range.next(values.length)[0];
            }
            for (int i = 0; i < values.length; i++) {
                values[i] = (short) Math.rint(all[i] / STEP);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public String name() {
        return stretch.name();
    }

    @Override
    public double sampleRateHz() {
        return stretch.sampleRateHz();
    }

    @Override
    public long samples() {
        return samples;
    }

    @Override
    public int channels() {
        return 1;
    }

    @Override
    public String channelName(int channel) {
        return stretch.channelName(channel);
    }

    @Override
    public SampleFormat format() {
        return stretch.format();
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
    public boolean opensAnywhere() {
        return true;
    }

    @Override
    public BlockReader openAt(long sample) {
        return new BlockReader() {
            private long done = sample;
            private int at = (int) (sample % values.length);

            @Override
            public int read(double[][] block) {
                int count = (int) Math.min(block[0].length, samples - done);
                for (int i = 0; i < count; i++) {
                    block[0][i] = STEP * values[at++];
                    at = at == values.length ? 0 : at;
                }
                done += count;
                return count;
            }

            @Override
            public void close() {
                // nothing is held open
            }
        };
    }
}
