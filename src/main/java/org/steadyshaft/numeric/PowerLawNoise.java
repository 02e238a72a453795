package org.steadyshaft.numeric;

import java.util.OptionalDouble;

/**
 * Noise whose spectral density of fractional frequency goes as a power of the frequency, f^exponent: which of the five usual
 * kinds it is decides how many degrees of freedom an overlapping Allan variance has.
 *
 * <p>Source: W. J. Riley, Handbook of Frequency Stability Analysis, NIST Special Publication 1065, 2008: approximate degrees
 * of freedom of the overlapping Allan variance, and the finding of the kind by the autocorrelation at lag 1. Formulas from
 * memory; AllanLawsTest holds those for white and random-walk noise against the spread of simulated variances.
 */
public enum PowerLawNoise {
    WHITE_PHASE {
        @Override
        double approximateDegrees(double n, double m) {
            return (n + 1) * (n - 2 * m) / (2 * (n - m));
        }
    },
    FLICKER_PHASE {
        @Override
        double approximateDegrees(double n, double m) {
            double logs = Math.log((n - 1) / (2 * m)) * Math.log((2 * m + 1) * (n - 1) / 4);
            return Math.exp(Math.sqrt(Math.max(0, logs)));
        }
    },
    WHITE_FREQUENCY {
        @Override
        double approximateDegrees(double n, double m) {
            return (3 * (n - 1) / (2 * m) - 2 * (n - 2) / n) * 4 * m * m / (4 * m * m + 5);
        }
    },
    FLICKER_FREQUENCY {
        @Override
        double approximateDegrees(double n, double m) {
            return m == 1 ? 2 * (n - 2) * (n - 2) / (2.3 * n - 4.9) : 5 * n * n / (4 * m * (n + 3 * m));
        }
    },
    RANDOM_WALK_FREQUENCY {
        @Override
        double approximateDegrees(double n, double m) {
            double left = (n - 1) * (n - 1) - 3 * m * (n - 1) + 4 * m * m;
            return (n - 2) / m * left / ((n - 3) * (n - 3));
        }
    };

    /** Exponent of white phase noise, the largest; every kind after it is one less. */
    private static final int LARGEST_EXPONENT = 2;

    /** Fewer values than this tell nothing of the kind (from memory of SP 1065). */
    private static final int FEWEST_VALUES = 30;

    /** An autocorrelation parameter below this belongs to a stationary series (from memory of SP 1065). */
    private static final double STATIONARY = 0.25;

    private static final int MOST_DIFFERENCES = 2;

    /** @param n phase values @param m averaging factor */
    abstract double approximateDegrees(double n, double m);

    /**
     * Degrees of freedom of the overlapping Allan variance; at least 1.
     *
     * @param points phase values; above 3
     * @param factor averaging factor, from 1 to (points - 1) / 2
     */
    public double degreesOfFreedom(int points, int factor) {
        if (points < 4 || factor < 1 || points - 2L * factor < 1) {
            throw new IllegalArgumentException("averaging factor " + factor + " for " + points + " phase values");
        }
        return Math.max(1, approximateDegrees(points, factor));
    }

    /** The kind next to an exponent; beyond -2 and 2 the last one. */
    public static PowerLawNoise nearest(double exponent) {
        long place = Math.round(LARGEST_EXPONENT - exponent);
        return values()[(int) Math.max(0, Math.min(values().length - 1, place))];
    }

    /**
     * Estimates the exponent of the noise at an averaging factor m from every m-th phase value, a line taken out. With r the
     * autocorrelation at lag 1 and delta = r / (1 + r), the series is differenced d times until delta is below 1/4; then the
     * exponent is 2 - 2 (delta + d). Standard error about 2 / sqrt(values / m) for white noise (own reckoning).
     *
     * @return from -2 to 2; empty with fewer than 30 values or a straight line
     */
    public static OptionalDouble exponent(double[] phase, int factor) {
        double[] series = thinned(phase, factor);
        for (int differences = 0; series.length >= FEWEST_VALUES - MOST_DIFFERENCES; differences++) {
            double r = lagOneCorrelation(series);
            if (Double.isNaN(r)) {
                return OptionalDouble.empty();
            }
            double delta = r / (1 + r);
            if (delta < STATIONARY || differences == MOST_DIFFERENCES) {
                double exponent = LARGEST_EXPONENT - 2 * (delta + differences);
                return OptionalDouble.of(Math.max(-LARGEST_EXPONENT, Math.min(LARGEST_EXPONENT, exponent)));
            }
            series = differenced(series);
        }
        return OptionalDouble.empty();
    }

    /** Every so-manieth value less a line through them; none if they are too few. */
    private static double[] thinned(double[] phase, int factor) {
        int count = (phase.length - 1) / factor + 1;
        if (count < FEWEST_VALUES) {
            return new double[0];
        }
        double[] place = new double[count];
        double[] kept = new double[count];
        for (int i = 0; i < count; i++) {
            place[i] = i;
            kept[i] = phase[i * factor];
        }
        LineFit line = LineFit.of(place, kept);
        for (int i = 0; i < count; i++) {
            kept[i] -= line.at(i);
        }
        return kept;
    }

    private static double[] differenced(double[] series) {
        double[] steps = new double[series.length - 1];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = series[i + 1] - series[i];
        }
        return steps;
    }

    /** NaN where all values are the same. */
    private static double lagOneCorrelation(double[] series) {
        double mean = 0;
        for (double value : series) {
            mean += value / series.length;
        }
        double products = 0;
        double squares = 0;
        for (int i = 0; i < series.length; i++) {
            double away = series[i] - mean;
            squares += away * away;
            products += i > 0 ? away * (series[i - 1] - mean) : 0;
        }
        return products / squares;
    }
}
