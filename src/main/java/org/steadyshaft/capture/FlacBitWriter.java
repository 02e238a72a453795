package org.steadyshaft.capture;

import java.util.Arrays;

/** Bits of a FLAC frame in the making, the highest first. */
final class FlacBitWriter {
    private byte[] bytes = new byte[1 << 14];
    private int whole;
    private long pending;
    private int pendingBits;

    /** Begins anew. */
    void clear() {
        whole = 0;
        pending = 0;
        pendingBits = 0;
    }

    /** Adds the lowest {@code count} bits of a value, 0 to 32. */
    void put(long value, int count) {
        pending = pending << count | value & (1L << count) - 1;
        pendingBits += count;
        while (pendingBits >= 8) {
            pendingBits -= 8;
            if (whole == bytes.length) {
                bytes = Arrays.copyOf(bytes, 2 * whole);
            }
            bytes[whole++] = (byte) (pending >> pendingBits);
        }
    }

    /** Adds so many zeros and a one. */
    void putUnary(long zeros) {
        for (long left = zeros; left > 0; left -= 24) {
            put(0, (int) Math.min(24, left));
        }
        put(1, 1);
    }

    /** Fills the last byte with zeros. */
    void align() {
        put(0, (8 - pendingBits) % 8);
    }

    /** The whole bytes so far are the first {@link #length()} of these. */
    byte[] bytes() {
        return bytes;
    }

    int length() {
        return whole;
    }
}
