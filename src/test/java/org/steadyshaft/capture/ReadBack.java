package org.steadyshaft.capture;

import java.io.IOException;
import java.util.Arrays;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/** Reads a whole recording in blocks of a given size. */
final class ReadBack {
    private ReadBack() {}

    static double[][] all(SampleSource source, int blockSamples) throws IOException {
        double[][] all = new double[source.channels()][0];
        double[][] block = new double[source.channels()][blockSamples];
        try (BlockReader reader = source.open()) {
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                for (int c = 0; c < all.length; c++) {
                    int before = all[c].length;
                    all[c] = Arrays.copyOf(all[c], before + count);
                    System.arraycopy(block[c], 0, all[c], before, count);
                }
            }
        }
        return all;
    }

    static double[] channel(SampleSource source, int channel) throws IOException {
        return all(source, 1000)[channel];
    }
}
