package org.steadyshaft.capture;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A packed text as it unpacks, up to where no recording would: a few kilobytes can be made to unpack to many gigabytes. */
final class Unpacked extends FilterInputStream {
    /** Tables of measured voltages pack to between a third and a twentieth; the format's own limit is near 1,000 (RFC 1951). */
    private static final long LARGEST_RATIO = 100;

    /** Whatever the ratio, so much may be looked at. */
    private static final long ALWAYS_BYTES = 64L << 20;

    private final long mostBytes;
    private final long packedBytes;
    private long bytes;

    /** @param packedBytes size of the packed file */
    Unpacked(InputStream in, long packedBytes) {
        super(in);
        this.packedBytes = packedBytes;
        this.mostBytes = Math.max(ALWAYS_BYTES, LARGEST_RATIO * packedBytes);
    }

    @Override
    public int read() throws IOException {
        int value = super.read();
        count(value < 0 ? 0 : 1);
        return value;
    }

    @Override
    public int read(byte[] block, int from, int length) throws IOException {
        int count = super.read(block, from, length);
        count(Math.max(0, count));
        return count;
    }

    @Override
    public boolean markSupported() {
        return false;
    }

    private void count(int more) throws IOException {
        bytes += more;
        if (bytes > mostBytes) {
            throw new IOException("its " + packedBytes + " packed bytes unpack to more than " + mostBytes
                    + "; expected at most " + LARGEST_RATIO + " times as much (where this is meant, unpack it first)");
        }
    }
}
