package org.steadyshaft.capture;

/**
 * The two checksums of a FLAC frame, both with the highest bit first and beginning at 0: CRC-8 with x^8 + x^2 + x + 1
 * over the header, CRC-16 with x^16 + x^15 + x^2 + 1 over all of it. Source: RFC 9639 sections 9.1.8 and 9.3.
 */
final class FlacSums {
    private static final int[] TABLE_8 = table(8, 0x07);
    private static final int[] TABLE_16 = table(16, 0x8005);

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

    /** Goes on from the sum of the bytes before. */
    static int crc16(int before, byte[] bytes, int from, int to) {
        int sum = before;
        for (int i = from; i < to; i++) {
            sum = (sum << 8 ^ TABLE_16[sum >> 8 ^ bytes[i] & 0xFF]) & 0xFFFF;
        }
        return sum;
    }
}
