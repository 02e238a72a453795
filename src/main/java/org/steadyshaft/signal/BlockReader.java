package org.steadyshaft.signal;

import java.io.Closeable;
import java.io.IOException;

/** Hands out a recording block by block; see {@link SampleSource#open()}. */
public interface BlockReader extends Closeable {
    /**
     * Reads the next samples of every channel.
     *
     * @param block one array a channel, all of the same length; filled from index 0
     * @return the number of samples read in each channel; 0 at the end of the recording and only there
     * @throws IOException if the file cannot be read or turns out to be damaged
     */
    int read(double[][] block) throws IOException;
}
