package org.steadyshaft.capture;

/**
 * One channel of a block as a FLAC subframe: the fixed predictor of the order that leaves least, what it leaves in Rice codes,
 * in as many parts as cost least. Source: RFC 9639 sections 9.2.5 and 9.2.7.
 */
final class FlacResidual {
    private static final int HIGHEST_ORDER = 4;
    private static final int MOST_PART_ORDER = 6;

    /** A parameter of 4 bits goes to 14, one of 5 bits to 30; the highest of each means something else. */
    private static final int HIGHEST_SHORT = 14;

    private static final int HIGHEST_LONG = 30;
    private static final int CONSTANT = 0b000000;
    private static final int FIXED = 0b001000;

    private final long[][] left;
    private int[] parameters = new int[0];

    FlacResidual(int blockSamples) {
        left = new long[HIGHEST_ORDER + 1][blockSamples];
    }

    /** Writes the first {@code count} of these samples of so many bits. */
    void write(int[] samples, int count, int bits, FlacBitWriter out) {
        if (isConstant(samples, count)) {
            out.put((long) CONSTANT << 1, 8);
            out.put(samples[0], bits);
            return;
        }
        int order = predict(samples, count);
        out.put((long) (FIXED | order) << 1, 8);
        for (int i = 0; i < order; i++) {
            out.put(samples[i], bits);
        }
        codes(left[order], order, count, out);
    }

    private static boolean isConstant(int[] samples, int count) {
        for (int i = 1; i < count; i++) {
            if (samples[i] != samples[0]) {
                return false;
            }
        }
        return true;
    }

    /** Fills {@link #left} by differences of differences; gives the order that leaves least. */
    private int predict(int[] samples, int count) {
        for (int i = 0; i < count; i++) {
            left[0][i] = samples[i];
        }
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int order = 0; order <= Math.min(HIGHEST_ORDER, count - 1); order++) {
            double sum = 0;
            for (int i = order; i < count; i++) {
                if (order > 0) {
                    left[order][i] = left[order - 1][i] - left[order - 1][i - 1];
                }
                sum += Math.abs(left[order][i]);
            }
            if (sum < least) {
                least = sum;
                best = order;
            }
        }
        return best;
    }

    private void codes(long[] values, int order, int count, FlacBitWriter out) {
        int partOrder = 0;
        long least = Long.MAX_VALUE;
        for (int p = 0; p <= MOST_PART_ORDER && count % (1 << p) == 0 && count >> p > order; p++) {
            long cost = chooseParameters(values, order, count, p);
            if (cost < least) {
                least = cost;
                partOrder = p;
            }
        }
        chooseParameters(values, order, count, partOrder);
        boolean needsLong = false;
        for (int parameter : parameters) {
            needsLong |= parameter > HIGHEST_SHORT;
        }
        out.put(needsLong ? 1 : 0, 2);
        out.put(partOrder, 4);
        int part = count >> partOrder;
        for (int k = 0; k < parameters.length; k++) {
            int parameter = parameters[k];
            out.put(parameter, needsLong ? 5 : 4);
            for (int i = k == 0 ? order : k * part; i < (k + 1) * part; i++) {
                long folded = folded(values[i]);
                out.putUnary(folded >> parameter);
                out.put(folded, parameter);
            }
        }
    }

    /** Sets the parameter of each part; gives the bits that all would take, about. */
    private long chooseParameters(long[] values, int order, int count, int partOrder) {
        parameters = new int[1 << partOrder];
        int part = count >> partOrder;
        long cost = 0;
        for (int k = 0; k < parameters.length; k++) {
            int from = k == 0 ? order : k * part;
            int to = (k + 1) * part;
            long sum = 0;
            for (int i = from; i < to; i++) {
                sum += folded(values[i]);
            }
            long mean = sum / Math.max(1, to - from);
            int parameter = mean == 0 ? 0 : Math.min(HIGHEST_LONG, 63 - Long.numberOfLeadingZeros(mean));
            parameters[k] = parameter;
            cost += 5 + (sum >> parameter) + (long) (to - from) * (parameter + 1);
        }
        return cost;
    }

    /** Signs folded into whole numbers: 0, -1, 1, -2 become 0, 1, 2, 3. */
    private static long folded(long value) {
        return value << 1 ^ value >> 63;
    }
}
