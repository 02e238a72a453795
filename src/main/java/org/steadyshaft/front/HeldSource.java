package org.steadyshaft.front;

import java.io.IOException;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/** A short recording that has to be read from its beginning, held in memory: read once, it opens at any sample. */
final class HeldSource extends AlteredSource {
    /** Samples of all channels that are held at most: 64 MB. */
    private static final long MOST_SAMPLES = 8_000_000;

    private final double[][] samples;

    private HeldSource(SampleSource source, double[][] samples) {
        super(source);
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
