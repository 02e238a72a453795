package org.steadyshaft.speed;

import java.util.Arrays;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Tachometer;

/**
 * Learns the uneven spacing of the tacho's poles from the longest unbroken row of cycles: each cycle's length is divided
 * by the mean length over exactly one turn around it, which every pole enters once, so that the pattern cancels from the
 * mean and a steady change of speed from the ratio; the mean of these ratios over all turns, blips left out, is the pitch of
 * a pole pair. True speed ripple that repeats every turn looks the same and is taken for pattern too.
 */
public final class PolePatternLearner {
    /** Fewer turns cannot tell a pattern from chance. */
    private static final int FEWEST_TURNS = 8;

    /** The pattern's rms must exceed its own standard error this many times to be believed. */
    private static final double CLEAR_OF_CHANCE = 3;

    /** Ratios further off than this come from blips. */
    private static final double OUTLIER_SIGMAS = 4;

    private final Tachometer tachometer;

    public PolePatternLearner(Tachometer tachometer) {
        this.tachometer = tachometer;
    }

    /** Learns the pattern; empty for one pole pair, with too few turns, or where chance would explain it. */
    public Optional<PolePattern> learn(CycleTimes cycles) {
        int poles = tachometer.polePairs();
        int segment = longestSegment(cycles);
        if (poles == 1 || segment < 0 || cycles.cyclesOf(segment) / poles < FEWEST_TURNS) {
            return Optional.empty();
        }
        double[][] ratios = ratiosByPosition(cycles, segment);
        double[] pitch = new double[poles];
        double errors = 0;
        int turns = Integer.MAX_VALUE;
        for (int position = 0; position < poles; position++) {
            Robust.ClippedMean usual = Robust.clippedMean(ratios[position], OUTLIER_SIGMAS);
            pitch[position] = usual.mean();
            errors += usual.sigma() / Math.sqrt(ratios[position].length);
            turns = Math.min(turns, ratios[position].length);
        }
        double mean = Arrays.stream(pitch).average().orElse(1);
        double[] deviationPercent =
                Arrays.stream(pitch).map(v -> 100 * (v / mean - 1)).toArray();
        PolePattern pattern = new PolePattern(DoubleSeries.of(deviationPercent), 100 * errors / poles, turns);
        return pattern.rmsPercent() > CLEAR_OF_CHANCE * pattern.standardErrorPercent()
                ? Optional.of(pattern)
                : Optional.empty();
    }

    static int longestSegment(CycleTimes cycles) {
        int longest = -1;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            if (longest < 0 || cycles.cyclesOf(segment) > cycles.cyclesOf(longest)) {
                longest = segment;
            }
        }
        return longest;
    }

    /** For each position in the turn, the cycle lengths over the mean length of the turn centred on them. */
    private double[][] ratiosByPosition(CycleTimes cycles, int segment) {
        int poles = tachometer.polePairs();
        int first = cycles.firstOf(segment);
        int count = cycles.cyclesOf(segment);
        double[][] ratios = new double[poles][count / poles + 1];
        int[] filled = new int[poles];
        int half = poles / 2;
        for (int i = half; i + half < count; i++) {
            double from = cycles.timeSeconds(first + i - half);
            double to = cycles.timeSeconds(first + i - half + poles);
            if (poles % 2 == 0) {
                // an even turn has no middle cycle: the mean of the two turns that begin half a cycle off
                from = 0.5 * (from + cycles.timeSeconds(first + i - half + 1));
                to = 0.5 * (to + cycles.timeSeconds(first + i - half + poles + 1));
            }
            double length = cycles.timeSeconds(first + i + 1) - cycles.timeSeconds(first + i);
            int position = i % poles;
            ratios[position][filled[position]++] = length * poles / (to - from);
        }
        for (int position = 0; position < poles; position++) {
            ratios[position] = Arrays.copyOf(ratios[position], filled[position]);
        }
        return ratios;
    }
}
