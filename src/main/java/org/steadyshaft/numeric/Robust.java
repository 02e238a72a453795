package org.steadyshaft.numeric;

import java.util.Arrays;
import org.apache.commons.numbers.arrays.Selection;
import org.steadyshaft.published.RobustConstants;

/** Statistics that a few outliers cannot spoil. */
public final class Robust {
    /** Below this half-width a sorted window is faster than ranks. */
    private static final int NARROW = 16;

    private Robust() {}

    /**
     * Median; of an even count the mean of the middle two.
     *
     * @throws IllegalArgumentException if there are no values
     */
    public static double median(double[] values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("median of no values");
        }
        return medianInPlace(values.clone());
    }

    /** Median of values whose order it may change. */
    private static double medianInPlace(double[] partial) {
        int middle = partial.length / 2;
        if (partial.length % 2 == 1) {
            Selection.select(partial, middle);
            return partial[middle];
        }
        Selection.select(partial, new int[] {middle - 1, middle});
        return 0.5 * (partial[middle - 1] + partial[middle]);
    }

    /** Median of the first {@code count} values, which are in order. */
    static double medianOfSorted(double[] sorted, int count) {
        if (count == 0) {
            throw new IllegalArgumentException("median of no values");
        }
        int middle = count / 2;
        return count % 2 == 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
    }

    /** Median absolute deviation from the median. */
    public static double medianAbsoluteDeviation(double[] values) {
        return medianAway(values, median(values));
    }

    private static double medianAway(double[] values, double centre) {
        double[] away = new double[values.length];
        for (int i = 0; i < away.length; i++) {
            away[i] = Math.abs(values[i] - centre);
        }
        return medianInPlace(away);
    }

    /** Standard deviation of normal data, judged by the median absolute deviation (Hampel 1974). */
    public static double sigma(double[] values) {
        return RobustConstants.MAD_TO_SIGMA * medianAbsoluteDeviation(values);
    }

    /**
     * A mean without outliers.
     *
     * @param mean of the values near the median
     * @param sigma robust standard deviation of all values
     */
    public record ClippedMean(double mean, double sigma) {}

    /**
     * Mean of the values that lie within so many robust standard deviations of the median: keeps outliers away as a median
     * does, but weighs the rest evenly, so that a swing that meets only a few phases averages out.
     *
     * @param sigmas how far a value may lie from the median; above 0
     */
    public static ClippedMean clippedMean(double[] values, double sigmas) {
        double centre = median(values);
        double sigma = RobustConstants.MAD_TO_SIGMA * medianAway(values, centre);
        double reach = sigmas * sigma;
        double sum = 0;
        int count = 0;
        for (double value : values) {
            if (Math.abs(value - centre) <= reach) {
                sum += value;
                count++;
            }
        }
        return new ClippedMean(count == 0 ? centre : sum / count, sigma);
    }

    /**
     * Median of a window of {@code 2 * halfWidth + 1} values around each value; at the ends the window is cut to what
     * there is. Cost: some 50 ns a value; see {@link RankMedian}.
     */
    public static double[] runningMedian(double[] values, int halfWidth) {
        return halfWidth < NARROW ? narrowMedian(values, halfWidth) : new RankMedian(values, halfWidth).medians();
    }

    /** A sorted window with binary search and shift: its cost grows with the window. */
    private static double[] narrowMedian(double[] values, int halfWidth) {
        int count = values.length;
        double[] medians = new double[count];
        double[] window = new double[2 * halfWidth + 2];
        int size = 0;
        int from = 0;
        int to = 0;
        for (int i = 0; i < count; i++) {
            while (to < count && to <= i + halfWidth) {
                size = insert(window, size, values[to++]);
            }
            while (from < i - halfWidth) {
                size = remove(window, size, values[from++]);
            }
            medians[i] = medianOfSorted(window, size);
        }
        return medians;
    }

    private static int insert(double[] sorted, int size, double value) {
        int at = Arrays.binarySearch(sorted, 0, size, value);
        int place = at < 0 ? -at - 1 : at;
        System.arraycopy(sorted, place, sorted, place + 1, size - place);
        sorted[place] = value;
        return size + 1;
    }

    private static int remove(double[] sorted, int size, double value) {
        int place = Arrays.binarySearch(sorted, 0, size, value);
        System.arraycopy(sorted, place + 1, sorted, place, size - place - 1);
        return size - 1;
    }
}
