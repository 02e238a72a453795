package org.steadyshaft.analysis;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/** A recording of one channel with samples taken out, written twice, or bent one by one. */
final class Edited implements SampleSource {
    private final SampleSource original;
    private final double[] values;

    private Edited(SampleSource original, double[] values) {
        this.original = original;
        this.values = values;
    }

    private static double[] read(SampleSource source) {
        try (SampleRange range = new SampleRange(source, 0)) {
            return range.next(Math.toIntExact(source.samples()))[0];
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Each sample replaced by a function of it, rounded to 16 bits. */
    static SampleSource bent(SampleSource source, DoubleUnaryOperator bend) {
        double[] values = read(source);
        for (int i = 0; i < values.length; i++) {
            values[i] = Math.rint(32768 * bend.applyAsDouble(values[i])) / 32768;
        }
        return new Edited(source, values);
    }

    /** Some samples from a time on are missing. */
    static SampleSource without(SampleSource source, double seconds, int samples) {
        double[] values = read(source);
        int at = (int) (seconds * source.sampleRateHz());
        double[] left = IntStream.range(0, values.length - samples)
                .mapToDouble(i -> values[i < at ? i : i + samples])
                .toArray();
        return new Edited(source, left);
    }

    @Override
    public String name() {
        return original.name();
    }

    @Override
    public double sampleRateHz() {
        return original.sampleRateHz();
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
        return original.channelName(channel);
    }

    @Override
    public SampleFormat format() {
        return original.format();
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

    @Override
    public List<String> remarks() {
        return original.remarks();
    }
}
