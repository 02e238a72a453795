package org.steadyshaft.signal;

import java.io.Closeable;
import java.io.IOException;
import java.util.Arrays;

/** Reads runs of samples of wanted lengths from a recording, from some sample on; behind its end there are zeros. */
public final class SampleRange implements Closeable {
    private static final int BLOCK_SAMPLES = 1 << 14;

    private final BlockReader reader;
    private final double[][] block;
    private int filled;
    private int used;

    /** @throws IOException if the recording cannot be opened there */
    public SampleRange(SampleSource source, long firstSample) throws IOException {
        this.reader = source.openAt(firstSample);
        this.block = new double[source.channels()][BLOCK_SAMPLES];
    }

    /** The next samples, one array a channel. */
    public double[][] next(int count) throws IOException {
        double[][] out = new double[block.length][count];
        fill(out, 0, count);
        return out;
    }

    /** Puts the next samples into arrays, one a channel, from index {@code at} on; zeros behind the end. */
    public void fill(double[][] out, int at, int count) throws IOException {
        int done = 0;
        while (done < count) {
            if (used == filled && !refill()) {
                for (double[] channel : out) {
                    Arrays.fill(channel, at + done, at + count, 0);
                }
                return;
            }
            int part = Math.min(count - done, filled - used);
            for (int c = 0; c < out.length; c++) {
                System.arraycopy(block[c], used, out[c], at + done, part);
            }
            used += part;
            done += part;
        }
    }

    /** Leaves samples out. */
    public void skip(long count) throws IOException {
        long left = count;
        while (left > 0 && (used < filled || refill())) {
            int part = (int) Math.min(left, filled - used);
            used += part;
            left -= part;
        }
    }

    private boolean refill() throws IOException {
        filled = reader.read(block);
        used = 0;
        return filled > 0;
    }

    @Override
    public void close() throws IOException {
        reader.close();
    }
}
