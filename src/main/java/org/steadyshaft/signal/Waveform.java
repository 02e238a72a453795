package org.steadyshaft.signal;

import java.io.IOException;
import java.util.Objects;

/** One channel of a recording, streamed to any number of listeners in one pass. */
public final class Waveform {
    /** Samples handed to a listener at a time at most; 32,768 keep a block of doubles inside a processor's cache. */
    public static final int BLOCK_SAMPLES = 1 << 15;

    /** Takes the waveform block by block. */
    @FunctionalInterface
    public interface Listener {
        /**
         * @param samples the block; may be reused after the call
         * @param count how many entries of it are valid; at least 1
         * @param first index of the block's first sample in the recording
         */
        void block(double[] samples, int count, long first);
    }

    private final SampleSource source;
    private final int channel;

    /** @param channel counted from 0 */
    public Waveform(SampleSource source, int channel) {
        this.source = Objects.requireNonNull(source, "source");
        this.channel = Objects.checkIndex(channel, source.channels());
    }

    public SampleSource source() {
        return source;
    }

    public int channel() {
        return channel;
    }

    public double sampleRateHz() {
        return source.sampleRateHz();
    }

    public long samples() {
        return source.samples();
    }

    public double durationSeconds() {
        return samples() / sampleRateHz();
    }

    /**
     * Reads the whole channel once and hands every block to every listener, in order.
     *
     * @throws IOException if the recording cannot be read
     */
    public void stream(Listener... listeners) throws IOException {
        streamAll(source, (block, count, first) -> {
            for (Listener listener : listeners) {
                listener.block(block[channel], count, first);
            }
        });
    }

    /** Takes all channels of a recording block by block. */
    @FunctionalInterface
    public interface AllChannels {
        /** @param block one array a channel; see {@link Listener#block} */
        void block(double[][] block, int count, long first);
    }

    /**
     * Reads all channels once.
     *
     * @throws IOException if the recording cannot be read
     */
    public static void streamAll(SampleSource source, AllChannels listener) throws IOException {
        double[][] block = new double[source.channels()][BLOCK_SAMPLES];
        long first = 0;
        try (BlockReader reader = source.open()) {
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                listener.block(block, count, first);
                first += count;
            }
        }
    }
}
