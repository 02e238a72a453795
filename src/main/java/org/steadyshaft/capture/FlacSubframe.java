package org.steadyshaft.capture;

import java.io.IOException;
import java.util.Arrays;

/**
 * Decodes one channel of a frame. Source: RFC 9639 section 9.2. Samples are long: the difference of two channels of 32
 * bits has 33, a prediction up to 53.
 */
final class FlacSubframe {
    private static final int MOST_COEFFICIENTS = 32;
    private static final int HIGHEST_FIXED_ORDER = 4;

    private final FlacBits in;
    private final long[] coefficients = new long[MOST_COEFFICIENTS];

    FlacSubframe(FlacBits in) {
        this.in = in;
    }

    /**
     * Reads a channel.
     *
     * @param codedBits bits of a sample, that of a side channel included
     */
    void read(long[] out, int count, int codedBits) throws IOException {
        if (in.unsigned(1) != 0) {
            throw in.damaged("found a channel that begins with a 1 bit; expected 0");
        }
        int type = (int) in.unsigned(6);
        int wasted = in.unsigned(1) == 0 ? 0 : (int) in.unary(MOST_COEFFICIENTS) + 1;
        int bits = codedBits - wasted;
        if (bits < 1) {
            throw in.damaged("found " + wasted + " unused bits in samples of " + codedBits);
        }
        samples(type, out, count, bits);
        if (wasted > 0) {
            for (int i = 0; i < count; i++) {
                out[i] <<= wasted;
            }
        }
    }

    private void samples(int type, long[] out, int count, int bits) throws IOException {
        if (type == 0) {
            Arrays.fill(out, 0, count, in.signed(bits));
        } else if (type == 1) {
            signed(out, 0, count, bits);
        } else if (type >= 32) {
            linear(type - 31, out, count, bits);
        } else if (type >= 8 && type <= 8 + HIGHEST_FIXED_ORDER) {
            int order = type - 8;
            warmUp(order, out, count, bits);
            residual(order, out, count);
            FlacPrediction.fixed(order, out, count);
        } else {
            throw in.damaged("found a channel of type " + type + ", which has no meaning");
        }
    }

    private void linear(int order, long[] out, int count, int bits) throws IOException {
        warmUp(order, out, count, bits);
        int precision = (int) in.unsigned(4) + 1;
        int shift = (int) in.signed(5);
        if (precision == 16 || shift < 0) {
            throw in.damaged("found coefficients of " + precision + " bits shifted by " + shift
                    + "; expected at most 15 bits and a shift of at least 0");
        }
        signed(coefficients, 0, order, precision);
        residual(order, out, count);
        FlacPrediction.linear(coefficients, order, shift, out, count);
    }

    private void warmUp(int order, long[] out, int count, int bits) throws IOException {
        if (order > count) {
            throw in.damaged("found a prediction from " + order + " samples in a block of " + count);
        }
        signed(out, 0, order, bits);
    }

    /** What is left after prediction, in partitions each with its own number of low bits. */
    private void residual(int order, long[] out, int count) throws IOException {
        int method = (int) in.unsigned(2);
        int partitions = 1 << in.unsigned(4);
        int each = count / partitions;
        if (method > 1 || each * partitions != count || each < order) {
            throw in.damaged("found method " + method + " with " + partitions + " partitions for " + count
                    + " samples predicted from " + order + "; expected method 0 or 1 and equal partitions");
        }
        int parameterBits = 4 + method;
        int escape = (1 << parameterBits) - 1;
        for (int p = 0; p < partitions; p++) {
            int from = p == 0 ? order : p * each;
            int to = (p + 1) * each;
            int low = (int) in.unsigned(parameterBits);
            if (low == escape) {
                signed(out, from, to, (int) in.unsigned(5));
            } else {
                in.rice(low, out, from, to);
            }
        }
    }

    private void signed(long[] out, int from, int to, int bits) throws IOException {
        if (bits == 0) {
            Arrays.fill(out, from, to, 0);
            return;
        }
        for (int i = from; i < to; i++) {
            out[i] = in.signed(bits);
        }
    }
}
