package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.steadyshaft.numeric.BlockBootstrap;
import org.steadyshaft.numeric.BootstrapReplicates;
import org.steadyshaft.numeric.ConfidenceInterval;
import org.steadyshaft.numeric.CorrelationTime;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.Moments;

/**
 * Ripple, swing and wander of some runs, from seconds of steady running; their intervals from a seeded bootstrap of blocks of seconds,
 * longer than the seconds stay alike. With several runs, the spread between the runs counts instead where it is larger: what changes
 * from run to run is not seen within one.
 */
final class SecondsMeter {
    private static final double CONFIDENCE = 0.95;
    private static final int REPLICATIONS = 400;

    /** Fewer seconds tell no interval. */
    static final int FEWEST_SECONDS = 6;

    /** A block holds so many correlation times at least. */
    private static final double CORRELATION_TIMES = 3;

    /** No more blocks than this: a short recording hides how long its seconds stay alike, and more blocks gain little certainty. */
    private static final double MOST_BLOCKS = 8;

    /** Neighbouring seconds more alike than this cannot be told from a drift. */
    private static final double MOST_LIKE = 0.95;

    /** Where blocks show less than half of the variance, nothing can be mended. */
    private static final double MOST_LOST = 0.5;

    /** What is smaller cannot be told from nothing; its logarithm would be without bound [%]. */
    static final double LEAST_PERCENT = 1e-6;

    /** Ripple, rms. */
    Optional<Estimate> ripple(List<Run> runs) {
        return ofSeconds(Measure.RIPPLE, runs, Run.Block::meanSquare, SecondsMeter::rootMean);
    }

    /** Mean swing within a second. */
    Optional<Estimate> swing(List<Run> runs) {
        return ofSeconds(Measure.SWING, runs, Run.Block::peakToPeakPercent, SecondsMeter::mean);
    }

    /** Wander from second to second, rms. */
    Optional<Estimate> wander(List<Run> runs) {
        return ofSeconds(Measure.WANDER, runs, b -> b.meanPercent() * b.meanPercent(), SecondsMeter::rootMean);
    }

    private static double mean(double[] values) {
        return Arrays.stream(values).average().orElse(0);
    }

    /** Noise was taken off the squares: where there is nothing else, their mean may come out below nothing. */
    private static double rootMean(double[] values) {
        return Math.sqrt(Math.max(0, mean(values)));
    }

    private static double log(double value) {
        return Math.log(Math.max(LEAST_PERCENT, value));
    }

    private static Optional<Estimate> ofSeconds(
            Measure measure, List<Run> runs, ToDoubleFunction<Run.Block> second, ToDoubleFunction<double[]> statistic) {
        double[] all = runs.stream()
                .flatMap(r -> r.blocks().stream())
                .mapToDouble(second)
                .toArray();
        if (all.length < FEWEST_SECONDS) {
            return Optional.empty();
        }
        double longest = 1;
        List<Double> byRun = new ArrayList<>();
        for (Run run : runs) {
            double[] values = run.blocks().stream().mapToDouble(second).toArray();
            if (values.length >= FEWEST_SECONDS) {
                longest = Math.max(longest, likeness(values));
                byRun.add(log(statistic.applyAsDouble(values)));
            }
        }
        int block = blockSeconds(all.length, longest);
        BootstrapReplicates replicates = new BlockBootstrap(block, REPLICATIONS, seed(measure, runs))
                .resample(all, values -> log(statistic.applyAsDouble(values)));
        MeanEstimate blocks = replicates.asMeanEstimate();
        double bySeconds = blocks.standardError() * endStretch(longest, block);
        double byFit = measure == Measure.WANDER ? 0 : fitError(runs);
        MeanEstimate within = new MeanEstimate(blocks.mean(), Math.hypot(bySeconds, byFit), blocks.degrees());
        MeanEstimate scaled = widerOf(within, byRun);
        ConfidenceInterval limits = scaled.interval(CONFIDENCE);
        double value = statistic.applyAsDouble(all);
        Optional<Double> between =
                byRun.size() > 1 ? Optional.of(100 * moments(byRun).deviation()) : Optional.empty();
        double minutes = runs.stream().mapToDouble(Run::steadyMinutes).sum();
        return Optional.of(new Estimate(
                measure,
                value,
                Math.min(value, Math.exp(limits.low())),
                Math.max(value, Math.exp(limits.high())),
                scaled,
                minutes,
                Optional.empty(),
                0,
                between));
    }

    /** Relative standard error that the fit of the waveform leaves to the ripple of some runs together. */
    private static double fitError(List<Run> runs) {
        double squares = 0;
        int count = 0;
        for (Run run : runs) {
            if (run.ripple().isPresent() && run.ripple().get().rmsPercent() > 0) {
                double error = 0.5
                        * run.ripple().get().expandedPercent()
                        / run.ripple().get().rmsPercent();
                squares += error * error;
                count++;
            }
        }
        return count == 0 ? 0 : Math.sqrt(squares) / count;
    }

    /** Long enough for the likeness of seconds, and as few as leave three blocks. */
    private static int blockSeconds(int seconds, double likeness) {
        double wanted = Math.max(CORRELATION_TIMES * (likeness - 1) + 1, (double) seconds / MOST_BLOCKS);
        return (int) Math.max(1, Math.min(seconds / 3, Math.ceil(wanted)));
    }

    /**
     * Correlation time of seconds [s]. A short series shows too short a one, as its own mean is taken off; so at least that of
     * an autoregression of the first order, whose coefficient f, read as the correlation r of neighbours, comes out low by about
     * (1 + 4 f) / n (Kendall 1954, Marriott and Pope 1954, from memory): time (1 + f) / (1 - f). To be cautious f is taken one
     * standard error higher, sqrt((1 - f^2) / n) (Bartlett, from memory).
     */
    private static double likeness(double[] values) {
        double mean = mean(values);
        double products = 0;
        double squares = 0;
        for (int i = 0; i < values.length; i++) {
            squares += (values[i] - mean) * (values[i] - mean);
            products += i > 0 ? (values[i] - mean) * (values[i - 1] - mean) : 0;
        }
        double read = squares > 0 ? products / squares : 0;
        double cautious = read + (1 + 4 * read) / values.length + Math.sqrt((1 - read * read) / values.length);
        double neighbours = squares > 0 ? Math.max(0, Math.min(MOST_LIKE, cautious)) : 0;
        return Math.max(CorrelationTime.of(values).timeSamples(), (1 + neighbours) / (1 - neighbours));
    }

    /**
     * How much the error comes out too small where likeness reaches over the ends of blocks: exact for the mean of an autoregression of
     * the first order with correlation time t, whose variance blocks of l show all but (t - 1 / t) / (2 l) of (own derivation).
     */
    private static double endStretch(double likeness, int block) {
        double lost = (likeness - 1 / likeness) / (2 * block);
        return 1 / Math.sqrt(1 - Math.min(MOST_LOST, lost));
    }

    /** The estimate with the larger error: from within the runs, or from how the runs differ. */
    private static MeanEstimate widerOf(MeanEstimate within, List<Double> byRun) {
        if (byRun.size() < 2) {
            return within;
        }
        double between = moments(byRun).deviation() / Math.sqrt(byRun.size());
        return between > within.standardError() ? new MeanEstimate(within.mean(), between, byRun.size() - 1.0) : within;
    }

    private static Moments moments(List<Double> values) {
        Moments moments = new Moments();
        values.forEach(moments::add);
        return moments;
    }

    /** The same runs give the same numbers, whatever else is in the batch. */
    private static long seed(Measure measure, List<Run> runs) {
        long seed = measure.name().hashCode();
        for (Run run : runs) {
            seed = 31 * seed + run.blocks().size();
            seed = 31 * seed + Double.hashCode(run.meanRpm());
        }
        return seed;
    }
}
