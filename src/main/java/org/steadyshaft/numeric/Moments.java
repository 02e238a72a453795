package org.steadyshaft.numeric;

/**
 * Running count, mean, spread and extremes of a stream of numbers, without storing them. The mean and the sum of squares
 * are updated by the recurrences of B. P. Welford (Technometrics 4 (1962) 419-420), which do not cancel.
 */
public final class Moments {
    private long count;
    private double mean;
    private double squares;
    private double smallest = Double.POSITIVE_INFINITY;
    private double largest = Double.NEGATIVE_INFINITY;

    public void add(double value) {
        count++;
        double away = value - mean;
        mean += away / count;
        squares += away * (value - mean);
        smallest = Math.min(smallest, value);
        largest = Math.max(largest, value);
    }

    public long count() {
        return count;
    }

    /** Mean; 0 with no values. */
    public double mean() {
        return mean;
    }

    /** Standard deviation of a sample (divisor n - 1); 0 with fewer than two values. */
    public double deviation() {
        return count > 1 ? Math.sqrt(squares / (count - 1)) : 0;
    }

    /** Root mean square about the mean (divisor n); 0 with no values. */
    public double rms() {
        return count > 0 ? Math.sqrt(squares / count) : 0;
    }

    /** Smallest value; infinity with no values. */
    public double smallest() {
        return smallest;
    }

    /** Largest value; minus infinity with no values. */
    public double largest() {
        return largest;
    }
}
