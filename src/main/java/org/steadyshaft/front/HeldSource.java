package org.steadyshaft.front;

import java.io.IOException;
import java.util.List;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/** A short recording that has to be read from its beginning, held in memory: read once, it opens at any sample. */
final class HeldSource implements SampleSource {
    /** Samples of all channels that are held at most: 64 MB. */
    private static final long MOST_SAMPLES = 8_000_000;

    private final SampleSource source;
    private final double[][] samples;

    private HeldSource(SampleSource source, double[][] samples) {
        this.source = source;
        this.samples = samples;
    }

    /** The recording itself where it opens anywhere or is too long to be held. */
    static SampleSource of(SampleSource source) throws IOException {
        if (source.opensAnywhere() || source.samples() * source.channels() > MOST_SAMPLES) {
            return source;
        }
        try (SampleRange range = new SampleRange(source, 0)) {
            return new HeldSource(source, range.next((int) source.samples()));
        }
    }

    @Override
    public String name() {
        return source.name();
    }

    @Override
    public double sampleRateHz() {
        return source.sampleRateHz();
    }

    @Override
    public long samples() {
        return source.samples();
    }

    @Override
    public int channels() {
        return source.channels();
    }

    @Override
    public String channelName(int channel) {
        return source.channelName(channel);
    }

    @Override
    public SampleFormat format() {
        return source.format();
    }

    @Override
    public List<String> remarks() {
        return source.remarks();
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
            private long at = Math.min(sample, source.samples());

            @Override
            public int read(double[][] block) {
                int count = (int) Math.min(block[0].length, source.samples() - at);
                for (int c = 0; c < block.length; c++) {
                    System.arraycopy(samples[c], (int) at, block[c], 0, count);
                }
                at += count;
                return count;
            }

            @Override
            public void close() {
                // nothing is held open
            }
        };
    }
}
