package org.steadyshaft.numeric;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * A periodic wave of unknown frequency through a short, evenly sampled record by least squares: a polynomial for the offset
 * and what creeps, a fundamental with harmonics, and where asked for an even change of the frequency. With one harmonic and a
 * constant offset it is the four-parameter sine fit of IEEE Std 1057 (from memory). Times count from the middle of the record,
 * so the frequency is that in the middle, which for an even change is the mean over the record.
 */
public final class PeriodicFit {
    /**
     * What is fitted.
     *
     * @param harmonics sines at 1, 2, ... times the frequency; at least 1
     * @param degree of the polynomial, 0 to 2
     * @param changing whether the frequency may change evenly
     */
    public record Model(int harmonics, int degree, boolean changing) {
        public Model {
            if (harmonics < 1 || degree < 0 || degree > 2) {
                throw new IllegalArgumentException(harmonics + " harmonics, degree " + degree);
            }
        }

        /** Number of parameters. */
        public int size() {
            return degree + 1 + 2 * harmonics + 1 + (changing ? 1 : 0);
        }
    }

    private static final int MOST_STEPS = 40;

    /** Steps of less than this share of 1 / duration change nothing any more. */
    private static final double STILL = 1e-8;

    /** A step leads at most this share of 1 / duration away: the fit has other minima one such width on. */
    private static final double LONGEST_STEP = 0.4;

    /** Bins of 1 / duration on either side of the frequency that tell the noise there. */
    private static final int NEAR_BINS = 4;

    private static final double TWO_SIGMA = 0.9545;

    private final Model model;
    private final double rateHz;
    private final double frequencyHz;
    private final double changeHzPerSecond;
    private final double[] coefficients;
    private final double[] rest;
    private final double squares;
    private final double influence;
    private final double changeInfluence;

    private PeriodicFit(
            Model model,
            double rateHz,
            double frequencyHz,
            double changeHzPerSecond,
            double[] coefficients,
            double[] rest,
            double influence,
            double changeInfluence) {
        this.model = model;
        this.rateHz = rateHz;
        this.frequencyHz = frequencyHz;
        this.changeHzPerSecond = changeHzPerSecond;
        this.coefficients = coefficients;
        this.rest = rest;
        this.squares = Arrays.stream(rest).map(r -> r * r).sum();
        this.influence = influence;
        this.changeInfluence = changeInfluence;
    }

    /**
     * Fits from a first guess: Gauss-Newton, each step a linear fit of all parameters.
     *
     * @param startHz within about half of 1 / duration of the frequency
     * @return empty where the steps come to no rest or the values do not determine the fit
     */
    public static Optional<PeriodicFit> of(double[] values, double rateHz, double startHz, Model model) {
        if (values.length <= model.size() + 1) {
            return Optional.empty();
        }
        double seconds = values.length / rateHz;
        double hz = startHz;
        double change = 0;
        double[] shape = new double[2 * model.harmonics];
        boolean still = false;
        for (int step = 0; step < MOST_STEPS; step++) {
            double[][] columns = columns(model, values.length, rateHz, hz, change, shape);
            RealMatrix inverse;
            try {
                inverse = inverse(columns);
            } catch (MathRuntimeException e) {
                return Optional.empty();
            }
            double[] solution = solve(columns, inverse, values);
            if (still) {
                return Optional.of(finished(model, rateHz, hz, change, values, columns, solution, inverse, seconds));
            }
            System.arraycopy(solution, model.degree + 1, shape, 0, shape.length);
            int at = model.degree + 1 + shape.length;
            // with the first shape of nothing the columns of the frequency are nothing, too
            double move = step == 0 ? 0 : Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, solution[at]));
            double bend = step == 0 || !model.changing ? 0 : solution[at + 1];
            hz += move / seconds;
            change += bend / (seconds * seconds);
            still = step > 0 && Math.abs(move) < STILL && Math.abs(bend) < 10 * STILL;
            if (!(hz > 0.5 / seconds) || model.harmonics * hz > 0.5 * rateHz || !Double.isFinite(change)) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** The columns of the linear fit: polynomial, cosines and sines, slope of the wave by frequency and by its change. */
    private static double[][] columns(Model model, int count, double rateHz, double hz, double change, double[] shape) {
        double[][] columns = new double[model.size()][count];
        double seconds = count / rateHz;
        for (int i = 0; i < count; i++) {
            double time = (i - 0.5 * (count - 1)) / rateHz;
            double place = 2 * time / seconds;
            for (int d = 0; d <= model.degree; d++) {
                columns[d][i] = d == 0 ? 1 : d == 1 ? place : place * place - 1.0 / 3;
            }
            double angle = 2 * Math.PI * (hz + 0.5 * change * time) * time;
            double slope = 0;
            double cosOne = Math.cos(angle);
            double sinOne = Math.sin(angle);
            double cos = 1;
            double sin = 0;
            for (int h = 0; h < model.harmonics; h++) {
                // one sine and one cosine a sample; the multiples by the addition theorem
                double next = cos * cosOne - sin * sinOne;
                sin = sin * cosOne + cos * sinOne;
                cos = next;
                int at = model.degree + 1 + 2 * h;
                columns[at][i] = cos;
                columns[at + 1][i] = sin;
                slope += (h + 1) * (shape[2 * h + 1] * cos - shape[2 * h] * sin);
            }
            int at = model.degree + 1 + 2 * model.harmonics;
            columns[at][i] = 2 * Math.PI * time / seconds * slope;
            if (model.changing) {
                columns[at + 1][i] = Math.PI * place * place / 4 * slope;
            }
        }
        return columns;
    }

    private static RealMatrix inverse(double[][] columns) {
        int size = columns.length;
        double[][] products = new double[size][size];
        double largest = 0;
        for (int r = 0; r < size; r++) {
            for (int c = 0; c <= r; c++) {
                double sum = OrthogonalFit.dot(columns[r], columns[c]);
                products[r][c] = sum;
                products[c][r] = sum;
            }
            largest = Math.max(largest, products[r][r]);
        }
        // in the first step nothing is known of the shape, and columns of zeros leave their parameters at zero
        for (int r = 0; r < size; r++) {
            products[r][r] = products[r][r] == 0 ? largest : products[r][r];
        }
        return new LUDecomposition(new Array2DRowRealMatrix(products, false))
                .getSolver()
                .getInverse();
    }

    private static double[] solve(double[][] columns, RealMatrix inverse, double[] values) {
        double[] right = new double[columns.length];
        for (int c = 0; c < columns.length; c++) {
            right[c] = OrthogonalFit.dot(columns[c], values);
        }
        return inverse.operate(right);
    }

    private static PeriodicFit finished(
            Model model,
            double rateHz,
            double hz,
            double change,
            double[] values,
            double[][] columns,
            double[] solution,
            RealMatrix inverse,
            double seconds) {
        double[] rest = values.clone();
        int slopes = model.degree + 1 + 2 * model.harmonics;
        for (int c = 0; c < slopes; c++) {
            for (int i = 0; i < rest.length; i++) {
                rest[i] -= solution[c] * columns[c][i];
            }
        }
        return new PeriodicFit(
                model,
                rateHz,
                hz,
                change,
                Arrays.copyOfRange(solution, 0, slopes),
                rest,
                inverse.getEntry(slopes, slopes) / (seconds * seconds),
                model.changing ? inverse.getEntry(slopes + 1, slopes + 1) / Math.pow(seconds, 4) : 0);
    }

    /** Values less their mean. */
    public static double[] withoutMean(double[] values) {
        double mean = Arrays.stream(values).average().orElse(0);
        return Arrays.stream(values).map(v -> v - mean).toArray();
    }

    /** What a parabola through the values by least squares leaves of them. */
    public static double[] withoutParabola(double[] values) {
        double[][] columns = new double[3][values.length];
        for (int i = 0; i < values.length; i++) {
            double place = (2.0 * i - values.length + 1) / values.length;
            columns[0][i] = 1;
            columns[1][i] = place;
            columns[2][i] = place * place - 1.0 / 3;
        }
        double[] solution = solve(columns, inverse(columns), values);
        double[] rest = values.clone();
        for (int c = 0; c < columns.length; c++) {
            for (int i = 0; i < rest.length; i++) {
                rest[i] -= solution[c] * columns[c][i];
            }
        }
        return rest;
    }

    public Model model() {
        return model;
    }

    /** Frequency in the middle of the record. */
    public double frequencyHz() {
        return frequencyHz;
    }

    /** Even change of the frequency; 0 where none was fitted. */
    public double changeHzPerSecond() {
        return changeHzPerSecond;
    }

    /** Standard error of that change for independent residuals. */
    public double changeErrorHzPerSecond() {
        return Math.sqrt(changeInfluence * variance());
    }

    /** Amplitude of a harmonic, from 1 on. */
    public double amplitude(int harmonic) {
        int at = model.degree + 1 + 2 * (harmonic - 1);
        return Math.hypot(coefficients[at], coefficients[at + 1]);
    }

    /**
     * Time from the middle of the record at which the fundamental rises through its zero.
     *
     * @param cycle 0 for the passage nearest the middle, 1 for the one behind it, -1 for the one before it
     * @return NaN where a change of speed lets it never come
     */
    public double risingSeconds(int cycle) {
        int at = model.degree + 1;
        // a cos + b sin = A sin(angle + atan2(a, b)), and the angle is f t + change t^2 / 2 cycles
        double cycles = cycle - Math.atan2(coefficients[at], coefficients[at + 1]) / (2 * Math.PI);
        double root = frequencyHz * frequencyHz + 2 * changeHzPerSecond * cycles;
        return 2 * cycles / (frequencyHz + Math.sqrt(root));
    }

    /**
     * By how much the wave comes later than the fit over a part of the record: least squares of the residuals on the wave's slope.
     *
     * @param from index of the part's first value
     * @param to index behind its last one
     * @return 0 where the wave has no slope there
     */
    public double delaySeconds(int from, int to) {
        double products = 0;
        double slopes = 0;
        for (int i = from; i < to; i++) {
            double slope = slopeAt((i - 0.5 * (rest.length - 1)) / rateHz);
            products -= rest[i] * slope;
            slopes += slope * slope;
        }
        return slopes > 0 ? products / slopes : 0;
    }

    /** Change of the periodic part a second. */
    private double slopeAt(double time) {
        double angle = 2 * Math.PI * (frequencyHz + 0.5 * changeHzPerSecond * time) * time;
        double sum = 0;
        for (int h = 1; h <= model.harmonics; h++) {
            int at = model.degree + 1 + 2 * (h - 1);
            sum += h * (coefficients[at + 1] * Math.cos(h * angle) - coefficients[at] * Math.sin(h * angle));
        }
        return 2 * Math.PI * (frequencyHz + changeHzPerSecond * time) * sum;
    }

    /** Sum of the squared residuals. */
    public double squares() {
        return squares;
    }

    /** Variance of the residuals, parameters allowed for. */
    public double variance() {
        return squares / (rest.length - model.size());
    }

    /** A residual: value less fit. */
    public double rest(int index) {
        return rest[index];
    }

    /**
     * Standard error of the frequency for residuals that may be anything but white: what counts is how strong they are near the
     * frequency itself, which hum beside it, a swing of level or speed and the steps of a converter make stronger than the rest.
     * Widened by Student's quantile for the few bins that tell it, so that twice the error covers 95.45 %; never less than white
     * residuals of all the record give, nor than a noise of the given size.
     *
     * @param leastNoise standard deviation that the residuals have at least, such as a step / sqrt(12)
     */
    public double standardErrorHz(double leastNoise) {
        double white = Math.max(variance(), leastNoise * leastNoise);
        double seconds = rest.length / rateHz;
        int centre = (int) Math.rint(frequencyHz * seconds);
        int from = Math.max(1, centre - NEAR_BINS);
        int to = (int) Math.min(centre + NEAR_BINS, Math.ceil(0.5 * rest.length) - 1);
        double power = 0;
        for (int bin = from; bin <= to; bin++) {
            power += binPower(bin);
        }
        // the fundamental, its frequency and its change took these away, and what creeps its part of the lowest bins
        int taken = 3 + (model.changing ? 1 : 0) + (from == 1 ? model.degree : 0);
        int freedom = Math.max(2, 2 * (to - from + 1) - taken);
        double near = power / freedom;
        double two = TDistribution.of(freedom).inverseSurvivalProbability(0.5 * (1 - TWO_SIGMA));
        return Math.sqrt(influence * Math.max(white, near * 0.25 * two * two));
    }

    /** Squares that a sine of so many periods in the record explains: twice the variance for white residuals. */
    private double binPower(int bin) {
        double re = 0;
        double im = 0;
        for (int i = 0; i < rest.length; i++) {
            double angle = 2 * Math.PI * bin * i / rest.length;
            re += rest[i] * Math.cos(angle);
            im += rest[i] * Math.sin(angle);
        }
        return 2 * (re * re + im * im) / rest.length;
    }
}
