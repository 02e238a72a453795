package org.steadyshaft.signal;

import java.util.List;

/** A recording of one channel whose samples stand in an array, for tests. */
public class ArraySource implements SampleSource {
    private final String name;
    private final double rateHz;
    private final SampleFormat format;

    /** The samples; who made the source may change them before it is read. */
    protected final double[] values;

    public ArraySource(String name, double rateHz, SampleFormat format, double[] values) {
        this.name = name;
        this.rateHz = rateHz;
        this.format = format;
        this.values = values;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return rateHz;
    }

    @Override
    public long samples() {
        return values.length;
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
        return format;
    }

    @Override
    public List<String> remarks() {
        return List.of();
    }

    @Override
    public BlockReader open() {
        return new BlockReader() {
            private int next;

            @Override
            public int read(double[][] block) {
                int count = Math.min(block[0].length, values.length - next);
                System.arraycopy(values, next, block[0], 0, count);
                next += count;
                return count;
            }

            @Override
            public void close() {
                // nothing is open
            }
        };
    }
}
