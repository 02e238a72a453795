package org.steadyshaft.numeric;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * A statistic of a series, and of the series that {@link BlockBootstrap} put together from its blocks.
 *
 * <p>Few blocks make the replicates too narrow in two ways. Blocks are measured from the mean of the series that they make up,
 * which takes 1/m of the variance for m blocks. And the spread of few blocks is itself uncertain, as with Student's t. For
 * independent values and the mean both are known exactly or nearly: the variance is stretched by m / (m - 1), and the spread has
 * 3 n l / (2 l^2 + 1) - 1 degrees of freedom for n values in blocks of l, which is n - 1 for blocks of 1 and 1.5 m - 1 for long
 * ones, because blocks overlap (own derivation: 2 n over the sum of squared weights of a triangular lag window).
 */
public final class BootstrapReplicates {
    private final double estimate;
    private final double[] replicates;
    private final double[] rising;
    private final double blocks;
    private final double degrees;

    BootstrapReplicates(double estimate, double[] replicates, int values, int blockLength) {
        if (!Double.isFinite(estimate) || !Arrays.stream(replicates).allMatch(Double::isFinite)) {
            throw new IllegalArgumentException("the statistic of the series or of a replicate is not finite");
        }
        this.estimate = estimate;
        this.replicates = replicates.clone();
        this.rising = replicates.clone();
        Arrays.sort(rising);
        this.blocks = (double) values / blockLength;
        this.degrees = Math.max(1, 3.0 * values * blockLength / (2.0 * blockLength * blockLength + 1) - 1);
    }

    /** The statistic of the series itself. */
    public double estimate() {
        return estimate;
    }

    public int count() {
        return replicates.length;
    }

    /** A replicate, in the order of drawing. */
    public double get(int index) {
        return replicates[index];
    }

    /** Standard deviation of the replicates, uncorrected for few blocks. */
    public double standardError() {
        Moments moments = new Moments();
        for (double replicate : replicates) {
            moments.add(replicate);
        }
        return moments.deviation();
    }

    /**
     * Percentile interval: the (1 - c) / 2 and (1 + c) / 2 quantiles of the replicates, found at p (B + 1) of B in rising order,
     * linear between. Too narrow with few blocks.
     *
     * @throws IllegalArgumentException if the replicates are too few to reach so far out: fewer than 2 / (1 - c) - 1
     */
    public ConfidenceInterval percentileInterval(double confidence) {
        ConfidenceInterval.requireConfidence(confidence);
        double tail = 0.5 * (1 - confidence) * (count() + 1);
        if (tail < 1 - 1e-9) {
            throw new IllegalArgumentException(count() + " replicates for a confidence of " + confidence + "; expected "
                    + Math.round(2 / (1 - confidence) - 1) + " or more");
        }
        return new ConfidenceInterval(at(tail - 1), at(count() - tail), confidence);
    }

    /**
     * The percentile interval, its limits moved away from the estimate (not towards it) by t / z sqrt(m / (m - 1)), t and z
     * being the quantiles of Student's t and of the normal distribution. The idea of widening percentiles so, from memory:
     * T. Hesterberg, The American Statistician 69 (2015) 371-386; coverage measured in BlockBootstrapTruthTest.
     */
    public ConfidenceInterval widenedInterval(double confidence) {
        ConfidenceInterval plain = percentileInterval(confidence);
        double tail = 0.5 * (1 - confidence);
        double stretch = TDistribution.of(degrees).inverseSurvivalProbability(tail)
                / NormalDistribution.of(0, 1).inverseSurvivalProbability(tail)
                * blockStretch();
        double low = Math.min(plain.low(), estimate + stretch * (plain.low() - estimate));
        double high = Math.max(plain.high(), estimate + stretch * (plain.high() - estimate));
        return new ConfidenceInterval(low, high, confidence);
    }

    /** The estimate with the standard error stretched by sqrt(m / (m - 1)) and its degrees of freedom, for {@link TwoMeans}. */
    public MeanEstimate asMeanEstimate() {
        return new MeanEstimate(estimate, standardError() * blockStretch(), degrees);
    }

    private double blockStretch() {
        return Math.sqrt(blocks / (blocks - 1));
    }

    private double at(double place) {
        double inside = Math.max(0, Math.min(rising.length - 1.0, place));
        int below = (int) inside;
        int above = Math.min(rising.length - 1, below + 1);
        return rising[below] + (inside - below) * (rising[above] - rising[below]);
    }
}
