package org.steadyshaft.numeric;

import java.util.Arrays;

/**
 * Running median by ranks, exact. The row is cut into pieces of some windows' length; the values of a piece and its shoulders
 * are sorted once, so that each has a rank, and a window is a set of ranks, kept as bits. When the window moves on by one
 * value, one bit is set, one taken away, and the median moves to a neighbouring bit.
 *
 * <p>Cost: some 50 ns a value, hardly dependent on the window (a sorted window that is shifted costs as much as it is wide).
 * Memory: some numbers for each of ten half-widths.
 */
final class RankMedian {
    /** A piece is so many half-widths long: longer ones sort less twice, shorter ones stay in the cache. */
    private static final int PIECE = 8;

    private static final int SHORTEST_PIECE = 64;

    private final double[] values;
    private final int half;
    private final double[] medians;

    private final double[] sorted;
    private final int[] rank;
    private final long[] key;
    private final long[] inWindow;

    /** A rank, of a window's value or not; and how many of the window's values have a lower one. */
    private int mark;

    private int below;

    RankMedian(double[] values, int halfWidth) {
        this.values = values;
        this.half = Math.min(halfWidth, values.length);
        this.medians = new double[values.length];
        int most = (int) Math.min(values.length, pieceLength() + 2L * half);
        this.sorted = new double[most];
        this.rank = new int[most];
        this.key = new long[most];
        this.inWindow = new long[most / Long.SIZE + 2];
    }

    private int pieceLength() {
        return (int) Math.max(SHORTEST_PIECE, Math.min(Integer.MAX_VALUE / 2, (long) PIECE * half));
    }

    /** Median of the window around each value; at the ends the window is cut to what there is. */
    double[] medians() {
        int length = pieceLength();
        for (int from = 0; from < values.length; from += length) {
            piece(from, Math.min(values.length, from + length));
        }
        return medians;
    }

    private void piece(int from, int end) {
        int first = Math.max(0, from - half);
        int count = Math.min(values.length, end + half) - first;
        order(first, count);
        Arrays.fill(inWindow, 0);
        mark = count / 2;
        below = 0;
        int entered = first;
        int left = first;
        for (int i = from; i < end; i++) {
            int windowEnd = Math.min(first + count, i + half + 1);
            while (entered < windowEnd) {
                int r = rank[entered++ - first];
                inWindow[r >> 6] |= 1L << r;
                below += r < mark ? 1 : 0;
            }
            int windowStart = Math.max(first, i - half);
            while (left < windowStart) {
                int r = rank[left++ - first];
                inWindow[r >> 6] &= ~(1L << r);
                below -= r < mark ? 1 : 0;
            }
            medians[i] = median(windowEnd - windowStart);
        }
    }

    /** Moves the mark to the lower middle of the window's values. */
    private double median(int size) {
        int wanted = (size - 1) / 2;
        while (below > wanted) {
            mark = before(mark);
            below--;
        }
        mark = from(mark);
        while (below < wanted) {
            mark = from(mark + 1);
            below++;
        }
        return size % 2 == 1 ? sorted[mark] : 0.5 * (sorted[mark] + sorted[from(mark + 1)]);
    }

    /** Lowest rank in the window that is not below one. */
    private int from(int r) {
        int word = r >> 6;
        long bits = inWindow[word] & (-1L << r);
        while (bits == 0) {
            bits = inWindow[++word];
        }
        return (word << 6) + Long.numberOfTrailingZeros(bits);
    }

    /** Highest rank in the window below one. */
    private int before(int r) {
        int word = r >> 6;
        long bits = inWindow[word] & ((1L << r) - 1);
        while (bits == 0) {
            bits = inWindow[--word];
        }
        return (word << 6) + Long.SIZE - 1 - Long.numberOfLeadingZeros(bits);
    }

    /**
     * Sorts a piece and ranks its values. The sort is one of whole numbers whose upper bits are those of the value and whose
     * lower ones its place; only where values differ in no more than the bits so lost is the order looked up again.
     */
    private void order(int first, int count) {
        int places = Math.max(1, Integer.SIZE - Integer.numberOfLeadingZeros(count - 1));
        long mask = (1L << places) - 1;
        for (int i = 0; i < count; i++) {
            long bits = Double.doubleToRawLongBits(values[first + i]);
            key[i] = ((bits ^ ((bits >> 63) & Long.MAX_VALUE)) & ~mask) | i;
        }
        Arrays.sort(key, 0, count);
        boolean inOrder = true;
        double last = Double.NEGATIVE_INFINITY;
        for (int r = 0; r < count; r++) {
            int place = (int) (key[r] & mask);
            double value = values[first + place];
            sorted[r] = value;
            rank[place] = r;
            inOrder &= !(value < last);
            last = value;
        }
        if (!inOrder) {
            orderExactly(first, count);
        }
    }

    /** By a sort of the values and a search for each; equal ones take the ranks of their run one after the other. */
    private void orderExactly(int first, int count) {
        Arrays.sort(sorted, 0, count);
        int[] taken = new int[count];
        for (int i = 0; i < count; i++) {
            int at = firstOf(values[first + i], count);
            rank[i] = at + taken[at]++;
        }
    }

    private int firstOf(double value, int count) {
        int low = 0;
        int high = count;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (Double.compare(sorted[middle], value) < 0) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
