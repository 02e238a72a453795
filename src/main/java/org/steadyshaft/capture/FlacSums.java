package org.steadyshaft.capture;

/**
 * The two checksums of a FLAC frame, both with the highest bit first and beginning at 0: CRC-8 with x^8 + x^2 + x + 1
 * over the header, CRC-16 with x^16 + x^15 + x^2 + 1 over all of it. Source: RFC 9639 sections 9.1.8 and 9.3.
 */
final class FlacSums {
    private static final int[] TABLE_8 = table(8, 0x07);
    private static final int[] TABLE_16 = table(16, 0x8005);
    private static final int SLICES = 8;

    /** Slice k holds what a byte leaves of the sum after k further bytes of zeros. */
    private static final int[][] SLICE_16 = slices();

    private FlacSums() {}

    private static int[] table(int width, int polynomial) {
        int[] table = new int[256];
        for (int value = 0; value < 256; value++) {
            int rest = value << width - 8;
            for (int i = 0; i < 8; i++) {
                rest = rest << 1 ^ (rest >> width - 1 & 1) * polynomial;
            }
            table[value] = rest & (1 << width) - 1;
        }
        return table;
    }

    static int crc8(byte[] bytes, int from, int to) {
        int sum = 0;
        for (int i = from; i < to; i++) {
            sum = TABLE_8[sum ^ bytes[i] & 0xFF];
        }
        return sum;
    }

    private static int[][] slices() {
        int[][] slices = new int[SLICES][];
        slices[0] = TABLE_16;
        for (int k = 1; k < SLICES; k++) {
            slices[k] = new int[256];
            for (int value = 0; value < 256; value++) {
                int before = slices[k - 1][value];
                slices[k][value] = (before << 8 ^ TABLE_16[before >> 8]) & 0xFFFF;
            }
        }
        return slices;
    }

    /**
     * Goes on from the sum of the bytes before. Eight bytes a round: the sum is linear, so that each byte's part is looked up by
     * itself and the eight do not wait for one another; about 1 ns a round.
     */
    static int crc16(int before, byte[] bytes, int from, int to) {
        int sum = before;
        int at = from;
        for (; at + SLICES <= to; at += SLICES) {
            sum = SLICE_16[7][sum >> 8 ^ bytes[at] & 0xFF]
                    ^ SLICE_16[6][sum & 0xFF ^ bytes[at + 1] & 0xFF]
                    ^ SLICE_16[5][bytes[at + 2] & 0xFF]
                    ^ SLICE_16[4][bytes[at + 3] & 0xFF]
                    ^ SLICE_16[3][bytes[at + 4] & 0xFF]
                    ^ SLICE_16[2][bytes[at + 5] & 0xFF]
                    ^ SLICE_16[1][bytes[at + 6] & 0xFF]
                    ^ SLICE_16[0][bytes[at + 7] & 0xFF];
        }
        for (; at < to; at++) {
            sum = (sum << 8 ^ TABLE_16[sum >> 8 ^ bytes[at] & 0xFF]) & 0xFFFF;
        }
        return sum;
    }
}
