package org.steadyshaft.numeric;

import java.util.Arrays;
import java.util.Comparator;

/**
 * Keeps the chance of even one false alarm among several tests at its level, by Holm's step-down procedure, whether the tests
 * hang together or not.
 *
 * <p>With the m p-values in rising order p(1), p(2), ... the adjusted one of p(i) is the largest of (m - j + 1) p(j) over
 * j = 1 to i, at most 1. A test is significant at a level where its adjusted p-value is no larger.
 *
 * <p>Source, from memory: S. Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal of Statistics 6
 * (1979) 65-70.
 */
public final class HolmCorrection {
    private HolmCorrection() {}

    /**
     * Adjusted p-values in the order of the given ones; equal ones get equal ones. None for none.
     *
     * @param pValues from 0 to 1, left as they are
     */
    public static double[] adjusted(double[] pValues) {
        for (double p : pValues) {
            if (!(p >= 0 && p <= 1)) {
                throw new IllegalArgumentException("p-value " + p + "; expected from 0 to 1");
            }
        }
        int count = pValues.length;
        Integer[] rising = new Integer[count];
        Arrays.setAll(rising, i -> i);
        Arrays.sort(rising, Comparator.comparingDouble(i -> pValues[i]));
        double[] adjusted = new double[count];
        double largest = 0;
        for (int rank = 0; rank < count; rank++) {
            int at = rising[rank];
            largest = Math.max(largest, Math.min(1, (count - rank) * pValues[at]));
            adjusted[at] = largest;
        }
        return adjusted;
    }
}
