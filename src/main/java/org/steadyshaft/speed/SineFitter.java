package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.steadyshaft.numeric.LineFit;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.Stretch;

/**
 * Draws a straight line through the phases of {@link SineBlocks}: its slope is how far the true frequency lies from the fixed
 * one. Phase regression reaches the bound of Rife and Boorstyn (1974) where the phase can be followed without a slip (S. A.
 * Tretter, IEEE Trans. Inf. Theory IT-31(6) 832-835, 1985, from memory; the factor is measured in the tests). Where the phases
 * leave the line by more than their scatter from block to block explains, the speed was not constant and there is no fit.
 */
final class SineFitter {
    private static final int FEWEST_BLOCKS = 10;

    /** Blocks weaker than this share of the usual lie in a gap. */
    private static final double WEAK = 0.5;

    /** Chance of calling a constant speed changing. */
    private static final double FALSE_CHANGE = 0.001;

    /** The phase may move this much from block to block, in cycles, before a slip is possible. */
    private static final double LARGEST_STEP = 0.35;

    /** Correlation may make the slope surer than independent residuals would, but is not known well enough to go further. */
    private static final double LEAST_OF_WHITE = 0.7;

    private static final double TWO_SIGMA = 0.9545;

    private final List<Stretch> gaps;

    SineFitter(List<Stretch> gaps) {
        this.gaps = gaps;
    }

    /** The frequency; empty where the speed was not constant or too little was recorded. */
    Optional<SineMean> fit(SineBlocks blocks) {
        double[] phase = blocks.phaseCycles().toArray();
        int[] run = longestRun(blocks);
        int count = run[1] - run[0];
        if (count < FEWEST_BLOCKS || !unwrap(phase, run[0], run[1])) {
            return Optional.empty();
        }
        double[] x = new double[count];
        double[] y = new double[count];
        for (int i = 0; i < count; i++) {
            x[i] = (i - 0.5 * (count - 1)) * blocks.blockSeconds();
            y[i] = phase[run[0] + i];
        }
        LineFit line = LineFit.of(x, y);
        double[] rest = new double[count];
        for (int i = 0; i < count; i++) {
            rest[i] = y[i] - line.at(x[i]);
        }
        if (isRough(rest)) {
            return Optional.empty();
        }
        double fromSeconds = blocks.fromSeconds() + run[0] * blocks.blockSeconds();
        return Optional.of(new SineMean(
                blocks.frequencyHz() + line.slope(),
                slopeError(x, rest),
                fromSeconds,
                fromSeconds + count * blocks.blockSeconds()));
    }

    /** First and end of the longest row of blocks outside gaps. */
    private int[] longestRun(SineBlocks blocks) {
        double[] amplitude = blocks.amplitude().toArray();
        double usual = amplitude.length > 0 ? Robust.median(amplitude) : 0;
        List<Integer> bad = new ArrayList<>();
        for (int i = 0; i < amplitude.length; i++) {
            double from = blocks.fromSeconds() + i * blocks.blockSeconds();
            double to = from + blocks.blockSeconds();
            boolean inGap = gaps.stream().anyMatch(g -> g.fromSeconds() < to && g.toSeconds() > from);
            if (inGap || amplitude[i] < WEAK * usual) {
                bad.add(i);
            }
        }
        bad.add(amplitude.length);
        int[] longest = {0, 0};
        int from = 0;
        for (int end : bad) {
            if (end - from > longest[1] - longest[0]) {
                longest = new int[] {from, end};
            }
            from = end + 1;
        }
        return longest;
    }

    /** Makes the phase run on without jumps of a cycle; false if it moves too fast to be sure. */
    private static boolean unwrap(double[] phase, int from, int to) {
        for (int i = from + 1; i < to; i++) {
            double step = phase[i] - phase[i - 1];
            phase[i] -= Math.rint(step);
            if (Math.abs(phase[i] - phase[i - 1]) > LARGEST_STEP) {
                return false;
            }
        }
        return true;
    }

    /**
     * Von Neumann's ratio (Ann. Math. Stat. 12(4) 367-395, 1941, from memory): mean squared difference of neighbours over the
     * variance is 2 for independent residuals, with a standard deviation of about 2 / sqrt(n), and less where they wander.
     */
    private static boolean isRough(double[] rest) {
        double squares = 0;
        double differences = 0;
        for (int i = 0; i < rest.length; i++) {
            squares += rest[i] * rest[i];
            differences += i > 0 ? (rest[i] - rest[i - 1]) * (rest[i] - rest[i - 1]) : 0;
        }
        double limit = NormalDistribution.of(0, 1).inverseSurvivalProbability(FALSE_CHANGE);
        double ratio = differences / (rest.length - 1) / (squares / rest.length);
        return squares > 0 && ratio < 2 - limit * 2 / Math.sqrt(rest.length);
    }

    /**
     * Standard error of the slope with residuals that may be correlated: their autocovariances with Bartlett's weights (W. K.
     * Newey and K. D. West, Econometrica 55(3) 703-708, 1987, from memory), widened by Student's quantile so that twice the
     * error covers 95.45 % also with few blocks.
     */
    private static double slopeError(double[] x, double[] rest) {
        int n = rest.length;
        int lags = (int) Math.floor(4 * Math.pow(n / 100.0, 2.0 / 9));
        double spread = 0;
        for (double value : x) {
            spread += value * value;
        }
        double sum = 0;
        for (int lag = 0; lag <= lags; lag++) {
            double covariance = 0;
            double overlap = 0;
            for (int i = lag; i < n; i++) {
                covariance += rest[i] * rest[i - lag];
                overlap += x[i] * x[i - lag];
            }
            double weight = lag == 0 ? 1 : 2 * (1 - lag / (lags + 1.0));
            sum += weight * overlap * covariance / (n - 2);
        }
        double white = 0;
        for (double value : rest) {
            white += value * value;
        }
        double least = LEAST_OF_WHITE * spread * white / (n - 2);
        double two = TDistribution.of(n - 2).inverseSurvivalProbability(0.5 * (1 - TWO_SIGMA));
        return 0.5 * two * Math.sqrt(Math.max(least, sum)) / spread;
    }
}
