package org.steadyshaft.capture;

/**
 * Sample rates written as 80-bit extended floating point, big-endian: sign and 15-bit exponent (bias 16383), then 64 bits of
 * significand with its leading one. Source: Apple, Audio Interchange File Format, version 1.3 (1989), COMM chunk.
 */
final class ExtendedRate {
    static final int BYTES = 10;
    private static final int BIAS = 16383;
    private static final int SIGNIFICAND_BITS = 63;

    private ExtendedRate() {}

    /**
     * The rate in ten bytes.
     *
     * @return hertz; not finite for an exponent of all ones
     * @throws IllegalArgumentException if there are not ten bytes
     */
    static double hz(byte[] bytes) {
        if (bytes.length != BYTES) {
            throw new IllegalArgumentException(bytes.length + " bytes; expected " + BYTES);
        }
        int exponent = (bytes[0] & 0x7F) << 8 | bytes[1] & 0xFF;
        double significand = 0;
        for (int i = 2; i < BYTES; i++) {
            significand = significand * 256 + (bytes[i] & 0xFF);
        }
        double value = exponent == 0x7FFF
                ? Double.POSITIVE_INFINITY
                : significand * Math.pow(2, exponent - BIAS - SIGNIFICAND_BITS);
        return (bytes[0] & 0x80) != 0 ? -value : value;
    }
}
