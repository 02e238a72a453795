package org.steadyshaft.numeric;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * A straight line by least squares whose slope has an error that holds where neighbouring residuals are alike and where one
 * swing rides on the line.
 *
 * <p>The swing, the strongest sine of six or more periods over the span of x, is fitted together with the line: its broken period
 * at the ends would lean on the slope. Left is wander, and the error of a slope comes from its slowest part. So its strength is
 * measured there: the residuals are projected on the K slowest cosines over the span (two half-waves and up; one half-wave looks
 * like the slope itself) that are made orthonormal to a constant, to x, to the swing and to each other. With independent normal
 * residuals the projections have the variance s^2 of one residual; with correlated ones that of the slow part. s^2 is the mean of
 * their squares, slopeError = s / |part of x that is orthogonal to the constant and the swing|, and slope / slopeError follows
 * Student's t with K degrees of freedom: exactly for independent normal residuals and a known frequency of the swing, nearly as
 * long as the residuals' spectrum is flat up to (K + 1) / 2 waves over the span. Residuals that get stronger with frequency give
 * too wide an interval, slower ones too narrow.
 *
 * <p>Source: P. C. B. Phillips, HAC estimation by automated regression, Econometric Theory 21 (2005) 116-142; U. K. Mueller, A
 * theory of robust long-run variance estimation, Journal of Econometrics 141 (2007) 1331-1352 (both from memory; coverage
 * measured in DriftLawsTest). The swing is an addition of our own.
 *
 * @param line the line by least squares, the swing taken out
 * @param slopeError standard error of its slope
 * @param degrees degrees of freedom of that error, K
 */
public record TrendFit(LineFit line, double slopeError, int degrees) {
    /** Slower swings are left to the wander, which they widen: a fit would confuse them with the line. */
    private static final int FEWEST_PERIODS = 6;

    /** Frequencies tried for each period over the span, before the best of them is narrowed down. */
    private static final int TRIALS_A_PERIOD = 4;

    /** Each narrowing takes a third off: 24 leave 3e-5 of a period over the span. */
    private static final int NARROWINGS = 24;

    /** Constant, x, cosine and sine of the swing. */
    private static final int FITTED = 4;

    public TrendFit {
        if (!(slopeError >= 0) || degrees < 1) {
            throw new IllegalArgumentException(
                    "slope error " + slopeError + " with " + degrees + " degrees of freedom");
        }
    }

    /**
     * Fits the line. Cost: the square of the number of points, for the swing.
     *
     * @param x in rising order, about evenly spaced
     * @param waves K, number of cosines; at least 1
     * @throws IllegalArgumentException with fewer than 2 (K + 4) points
     */
    public static TrendFit of(double[] x, double[] y, int waves) {
        if (waves < 1 || x.length < 2 * (waves + FITTED)) {
            throw new IllegalArgumentException(x.length + " points; expected " + 2 * (waves + FITTED) + " or more");
        }
        double[] share = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            share[i] = (x[i] - x[0]) / (x[x.length - 1] - x[0]);
        }
        double halfWaves = 2 * swingPeriods(share, away(x, y, LineFit.of(x, y)));
        double[] even = wave(share, 0, 0);
        double[] cosine = wave(share, halfWaves, 0);
        double[] sine = wave(share, halfWaves, 0.5);
        double[] straight = less(y, coefficient(y, cosine, even, x, sine), cosine);
        straight = less(straight, coefficient(y, sine, even, x, cosine), sine);
        LineFit line = LineFit.of(x, straight);
        double residual = slowDeviation(share, away(x, straight, line), waves, even, x, cosine, sine);
        return new TrendFit(line, residual / length(bare(x, even, cosine, sine)), waves);
    }

    /** Half the width of the two-sided interval of the slope. */
    public double halfWidth(double confidence) {
        return slopeError * TDistribution.of(degrees).inverseCumulativeProbability(0.5 * (1 + confidence));
    }

    /**
     * Periods over the span of the sine that takes most off the squares: the largest Fourier sum, then narrowed down. Below two points a
     * period, where the sine is nothing.
     */
    private static double swingPeriods(double[] share, double[] residuals) {
        double strongest = 0;
        double found = FEWEST_PERIODS;
        for (int trial = FEWEST_PERIODS * TRIALS_A_PERIOD;
                2 * (trial + 1) < (share.length - 1) * TRIALS_A_PERIOD;
                trial++) {
            double periods = (double) trial / TRIALS_A_PERIOD;
            double size = Math.hypot(
                    product(wave(share, 2 * periods, 0), residuals), product(wave(share, 2 * periods, 0.5), residuals));
            if (size > strongest) {
                strongest = size;
                found = periods;
            }
        }
        double low = found - 1.0 / TRIALS_A_PERIOD;
        double high = found + 1.0 / TRIALS_A_PERIOD;
        for (int i = 0; i < NARROWINGS; i++) {
            double third = (high - low) / 3;
            if (squaresTaken(share, residuals, low + third) < squaresTaken(share, residuals, high - third)) {
                low += third;
            } else {
                high -= third;
            }
        }
        return 0.5 * (low + high);
    }

    /** What a sine beside a line takes off the squares. */
    private static double squaresTaken(double[] share, double[] residuals, double periods) {
        double[] even = wave(share, 0, 0);
        double[] cosine = wave(share, 2 * periods, 0);
        double[] cosineAlone = bare(cosine, even, share);
        double[] sineAlone = bare(wave(share, 2 * periods, 0.5), even, share, cosine);
        return Math.pow(product(cosineAlone, residuals) / length(cosineAlone), 2)
                + Math.pow(product(sineAlone, residuals) / length(sineAlone), 2);
    }

    /** Standard deviation of a residual as the slow cosines see it, which are made orthonormal to what was fitted. */
    private static double slowDeviation(double[] share, double[] residuals, int waves, double[]... fitted) {
        double[][] taken = Arrays.copyOf(fitted, fitted.length + waves);
        double squares = 0;
        for (int k = 0; k < waves; k++) {
            double[][] before = Arrays.copyOf(taken, fitted.length + k);
            double[] slow = bare(wave(share, k + 2, 0), before);
            taken[fitted.length + k] = slow;
            squares += Math.pow(product(slow, residuals) / length(slow), 2);
        }
        return Math.sqrt(squares / waves);
    }

    /** Half-waves over the span, late by so many half-waves: 0 a cosine, 0.5 a sine. */
    private static double[] wave(double[] share, double halfWaves, double late) {
        double[] row = new double[share.length];
        for (int i = 0; i < row.length; i++) {
            row[i] = Math.cos(Math.PI * (halfWaves * share[i] - late));
        }
        return row;
    }

    private static double[] away(double[] x, double[] y, LineFit line) {
        double[] residuals = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            residuals[i] = y[i] - line.at(x[i]);
        }
        return residuals;
    }

    /** Coefficient of a row in the joint fit of y by it and others. */
    private static double coefficient(double[] y, double[] row, double[]... others) {
        double[] alone = bare(row, others);
        return product(alone, y) / product(alone, row);
    }

    /** What is left of a row that is made orthogonal to others (Gram-Schmidt, modified form). */
    private static double[] bare(double[] row, double[]... others) {
        double[][] made = new double[others.length][];
        double[] left = row;
        for (int k = 0; k <= others.length; k++) {
            left = k < others.length ? others[k] : row;
            for (int before = 0; before < k; before++) {
                left = less(left, product(left, made[before]) / product(made[before], made[before]), made[before]);
            }
            if (k < others.length) {
                made[k] = left;
            }
        }
        return left;
    }

    private static double[] less(double[] row, double times, double[] other) {
        double[] difference = new double[row.length];
        for (int i = 0; i < row.length; i++) {
            difference[i] = row[i] - times * other[i];
        }
        return difference;
    }

    private static double length(double[] row) {
        return Math.sqrt(product(row, row));
    }

    private static double product(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
