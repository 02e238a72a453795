package org.steadyshaft.speed;

import java.util.Arrays;
import java.util.OptionalInt;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.CycleTimes;

/**
 * Whether the uneven spacing of the poles repeats after as many cycles as pole pairs were said. The cycle lengths, freed of
 * slow changes, are folded at every period up to {@value #LONGEST_PERIOD}; the share of their variance that a period explains
 * tells which one the magnet has. A single regular line is no pattern: two harmonics of the period must take part that
 * do not lie on multiples of the mains.
 */
public final class PoleCountCheck {
    private static final int LONGEST_PERIOD = 24;

    /** Slow changes are what a running mean over two of the longest periods follows. */
    private static final int MEAN_CYCLES = 2 * LONGEST_PERIOD;

    private static final int MOST_CYCLES = 20000;
    private static final int FEWEST_CYCLES = 16 * LONGEST_PERIOD;
    private static final double OUTLIER_SIGMAS = 4;

    /** A period must explain this much of the variance, and this much more than the one that was said (our own figures). */
    private static final double CLEAR_SHARE = 0.3;

    private static final double CLEARLY_MORE = 0.06;

    /** The shortest period that explains this much of what the best does is the magnet's; multiples explain as much. */
    private static final double AS_GOOD = 0.9;

    private static final double MORE_THAN_CHANCE = 0.005;
    private static final double F_RATIO = 20;

    /** The same for the number that was said: it is doubted only where it explains hardly more than chance. */
    private static final double F_RATIO_OF_SAID = 4;

    private static final double LEAST_REST = 0.01;

    /** A magnet looks like one of fewer poles by luck in this share of cases at most. */
    private static final double BY_LUCK = 0.003;

    /** A harmonic takes part from this share of the pattern's power on. */
    private static final double TAKES_PART = 0.02;

    /** Power of the magnet's own part at a multiple of the mains without the mains over that with it, or the other way round: not below this. */
    private static final double STAYS = 0.6;

    /** Multiples of the mains at which circuits make strong ripple. */
    private static final int[] MAINS_MULTIPLES = {1, 2, 4};

    private final int polePairs;
    private final double mainsHz;

    public PoleCountCheck(int polePairs, double mainsHz) {
        this.polePairs = polePairs;
        this.mainsHz = mainsHz;
    }

    /**
     * The number of pole pairs that the pattern speaks for, if it clearly speaks against the one that was said.
     *
     * @param cycles crossings from which the lines of the mains were taken as far as they are known
     * @param raw the same crossings as they were counted
     * @param told whether all lines of the mains were told
     */
    public OptionalInt likelier(CycleTimes cycles, CycleTimes raw, boolean told) {
        int segment = PolePatternLearner.longestSegment(cycles);
        if (segment < 0 || cycles.cyclesOf(segment) < FEWEST_CYCLES) {
            return OptionalInt.empty();
        }
        double[] rest = lengthsWithoutTrend(cycles, segment);
        double[] share = new double[Math.max(LONGEST_PERIOD, polePairs) + 1];
        double best = 0;
        for (int period = 2; period < share.length; period++) {
            share[period] = explained(rest, period);
            best = period <= LONGEST_PERIOD ? Math.max(best, share[period]) : best;
        }
        int magnet = 2;
        while (share[magnet] < AS_GOOD * best || !isComplete(share, magnet, rest.length)) {
            magnet++;
        }
        boolean clear = share[magnet] > CLEAR_SHARE && magnet != polePairs;
        boolean said = polePairs % magnet == 0;
        boolean explainsLess = said
                ? repeatsWithin(share[magnet], share[polePairs], polePairs - magnet, rest.length)
                : share[magnet] - share[polePairs] >= CLEARLY_MORE;
        if (!clear || !explainsLess) {
            return OptionalInt.empty();
        }
        double meanHz = cycles.cyclesOf(segment)
                / (cycles.timeSeconds(cycles.endOf(segment) - 1) - cycles.timeSeconds(cycles.firstOf(segment)));
        double[] before = lengthsWithoutTrend(raw, segment);
        return isPattern(means(rest, magnet), means(before, magnet), meanHz, told)
                ? OptionalInt.of(magnet)
                : OptionalInt.empty();
    }

    /**
     * Whether the number that was said explains hardly more than a part of it, and so little more could have been seen that a magnet of that
     * number would have such a pattern by luck in one case in some hundreds: of a magnet's power about a share e falls on what tells the two
     * apart with the chance e^(means / 2).
     */
    private static boolean repeatsWithin(double part, double whole, int means, int cycles) {
        double byChance = byChance(F_RATIO_OF_SAID, means, whole, cycles);
        double seen = (Math.max(0, whole - part) + byChance) / part;
        return whole - part < byChance && Math.pow(seen, 0.5 * means) < BY_LUCK;
    }

    /** Lengths over their running mean, less 1, outliers clipped. */
    private static double[] lengthsWithoutTrend(CycleTimes cycles, int segment) {
        int first = cycles.firstOf(segment);
        int count = Math.min(MOST_CYCLES, cycles.cyclesOf(segment)) - MEAN_CYCLES;
        double[] rest = new double[count];
        for (int i = 0; i < count; i++) {
            int at = first + i + MEAN_CYCLES / 2;
            double mean = (cycles.timeSeconds(first + i + MEAN_CYCLES) - cycles.timeSeconds(first + i)) / MEAN_CYCLES;
            rest[i] = (cycles.timeSeconds(at + 1) - cycles.timeSeconds(at)) / mean - 1;
        }
        double limit = OUTLIER_SIGMAS * Robust.sigma(rest);
        for (int i = 0; i < count; i++) {
            rest[i] = Math.max(-limit, Math.min(limit, rest[i]));
        }
        return rest;
    }

    /**
     * Whether no multiple of a period explains more than the period itself but by chance: the extra share for each further mean, against
     * the share that nothing explains (an F ratio), which ripple makes larger than chance alone would.
     */
    private static boolean isComplete(double[] share, int period, int cycles) {
        for (int longer = 2 * period; longer <= LONGEST_PERIOD; longer += period) {
            double byChance = byChance(F_RATIO, longer - period, share[longer], cycles);
            if (share[longer] - share[period] > Math.max(MORE_THAN_CHANCE, byChance)) {
                return false;
            }
        }
        return true;
    }

    /** Share that so many more means explain at an F ratio. */
    private static double byChance(double ratio, int means, double share, int cycles) {
        return ratio * means / cycles * Math.max(LEAST_REST, 1 - share);
    }

    private static double[] means(double[] rest, int period) {
        double[] sum = new double[period];
        int[] count = new int[period];
        for (int i = 0; i < rest.length; i++) {
            sum[i % period] += rest[i];
            count[i % period]++;
        }
        for (int j = 0; j < period; j++) {
            sum[j] /= Math.max(1, count[j]);
        }
        return sum;
    }

    /** Share of the variance that the means of a period explain, less what chance would explain; 0 at least. */
    private static double explained(double[] rest, int period) {
        double all = Arrays.stream(rest).map(r -> r * r).sum();
        double[] means = means(rest, period);
        double sum = 0;
        for (int i = 0; i < rest.length; i++) {
            sum += means[i % period] * means[i % period];
        }
        double chance = (period - 1.0) / rest.length;
        return all > 0 ? Math.max(0, sum / all - chance) : 0;
    }

    /**
     * Whether two harmonics of the period take part, one where it has but one. Only those count
     * that the number that was said does not have as well, unless it is a multiple: hunting beside the magnet's own pattern adds a single one. What stands on the mains counts where the mains was told and
     * taking it out changed little: the magnet's part stays, while of ripple much is left or put there, since the counted crossings show
     * less of what is faster than their cycle.
     */
    private boolean isPattern(double[] means, double[] before, double meanHz, boolean told) {
        int period = means.length;
        double all = Arrays.stream(means).map(m -> m * m).sum() * period;
        int parts = 0;
        int own = 0;
        for (int k = 1; k <= period / 2; k++) {
            if (polePairs % period != 0 && k * polePairs % period == 0) {
                continue;
            }
            own++;
            double power = power(means, k);
            double whole = power(before, k);
            boolean stays = told && power > STAYS * whole && whole > STAYS * power;
            boolean counts = stays || !onTheMains(k * meanHz / period, meanHz);
            parts += power > TAKES_PART * all && counts ? 1 : 0;
        }
        return parts >= Math.min(2, own);
    }

    private static double power(double[] means, int k) {
        int period = means.length;
        double re = 0;
        double im = 0;
        for (int j = 0; j < period; j++) {
            re += means[j] * Math.cos(2 * Math.PI * k * j / period);
            im += means[j] * Math.sin(2 * Math.PI * k * j / period);
        }
        return (2 * k == period ? 1 : 2) * (re * re + im * im);
    }

    /** Whether a multiple of the mains stands, or folds, at a frequency. */
    private boolean onTheMains(double hz, double meanHz) {
        for (int m : MAINS_MULTIPLES) {
            double source = m * mainsHz;
            double folded = Math.abs(source - meanHz * Math.rint(source / meanHz));
            if (Math.abs(hz - folded) < Mains.REACH * source) {
                return true;
            }
        }
        return false;
    }
}
