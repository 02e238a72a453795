package org.steadyshaft.compare;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.steadyshaft.numeric.ConfidenceInterval;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.PoissonLimits;

/** Measures a group of runs; what was recorded and cannot be measured gets a reason. */
final class GroupMeter {
    private static final double CONFIDENCE = 0.95;

    /** Hunting below this amplitude is not told as such: measures.md's own figure [%]. */
    private static final double LEAST_HUNTING_PERCENT = 0.3;

    /** A settling time is read no better than to this share of itself: a figure of our own, for steps that all settle alike. */
    private static final double LEAST_SETTLING_SPREAD = 0.02;

    /** What stands so much above what just shows in the noise is found nearly always: five to six sigmas, and another 1.6 of them. */
    private static final double SURELY_FOUND = 1.3;

    private final List<Run> runs;
    private final Map<Measure, Estimate> estimates = new EnumMap<>(Measure.class);
    private final Map<Measure, String> untold = new EnumMap<>(Measure.class);

    /** @param runs of one circuit at about one speed with one load */
    GroupMeter(List<Run> runs) {
        this.runs = List.copyOf(runs);
    }

    GroupMeter measure() {
        SecondsMeter seconds = new SecondsMeter();
        String tooFew = tooFewSeconds();
        put(Measure.RIPPLE, seconds.ripple(runs), tooFew);
        put(Measure.SWING, seconds.swing(runs), tooFew);
        put(Measure.WANDER, seconds.wander(runs), tooFew);
        put(
                Measure.TWICE_MAINS,
                mainsLine(runs, Run.RippleLines::twiceMains).map(v -> v.estimate(Measure.TWICE_MAINS)),
                Group.notWhole(runs).orElse("too little steady running to tell it"));
        put(Measure.BLIPS, blips(runs, 0), "nothing ran steadily long enough to look for blips");
        settling().ifPresent(e -> estimates.put(e.measure(), e));
        if (runs.stream().anyMatch(GroupMeter::mayHunt)) {
            put(Measure.HUNTING, hunting(), "too little steady running to tell hunting");
        }
        return this;
    }

    Map<Measure, Estimate> estimates() {
        return estimates;
    }

    Map<Measure, String> untold() {
        return untold;
    }

    private void put(Measure measure, Optional<Estimate> estimate, String reason) {
        estimate.ifPresentOrElse(e -> estimates.put(measure, e), () -> untold.put(measure, reason));
    }

    private String tooFewSeconds() {
        boolean shortBand =
                runs.stream().anyMatch(r -> r.blocks().isEmpty() && r.ripple().isPresent());
        if (shortBand) {
            return "too short: swings slower than about one a second do not show in it";
        }
        double seconds = 60 * runs.stream().mapToDouble(Run::steadyMinutes).sum();
        return String.format(
                Locale.ROOT,
                "%.0f s of steady running; %d s are the least",
                Math.floor(seconds),
                SecondsMeter.FEWEST_SECONDS);
    }

    /** Mean amplitude of a line of the mains over some runs, if all of them tell it. */
    private static Optional<OfRuns> mainsLine(List<Run> runs, Function<Run.RippleLines, Run.MainsLine> which) {
        Moments values = new Moments();
        double squares = 0;
        for (Run run : runs) {
            Optional<Run.MainsLine> line = run.ripple().map(which);
            if (line.flatMap(Run.MainsLine::percent).isEmpty()) {
                return Optional.empty();
            }
            double error = 0.5 * line.get().expandedPercent();
            values.add(line.get().percent().get());
            squares += error * error;
        }
        return Optional.of(new OfRuns(runs, values, Math.sqrt(squares) / runs.size()));
    }

    /** The line at the mains of some runs, if all of them tell it: no limit is set for it, so it is no measure of its own. */
    static Optional<WorkCheck.Figure> atMains(List<Run> runs) {
        return mainsLine(runs, Run.RippleLines::mains).map(OfRuns::figure);
    }

    /** Whether a run's circuit controls the speed: nothing else hunts. */
    private static boolean mayHunt(Run run) {
        return run.hunting().isPresent() || run.loop().orElse(false);
    }

    /** Mean amplitude over the runs that tell it, 0 where a loop does not hunt: then it may hunt by what would just not be told. */
    private Optional<Estimate> hunting() {
        List<Run> telling = runs.stream()
                .filter(r -> r.hunting().isPresent() || !r.blocks().isEmpty())
                .toList();
        if (telling.isEmpty()) {
            return Optional.empty();
        }
        Moments values = new Moments();
        double squares = 0;
        for (Run run : telling) {
            double error = run.hunting().map(h -> 0.5 * h.expandedPercent()).orElse(0.5 * LEAST_HUNTING_PERCENT);
            values.add(run.hunting().map(Run.Hunts::amplitudePercent).orElse(0.0));
            squares += error * error;
        }
        return Optional.of(new OfRuns(telling, values, Math.sqrt(squares) / telling.size()).estimate(Measure.HUNTING));
    }

    /**
     * One value a run; its error is the larger of two: that of the single values, and that from how the runs differ.
     *
     * @param runs whose values they are
     * @param values one a run
     * @param own standard error of their mean from those of the single values
     */
    private record OfRuns(List<Run> runs, Moments values, double own) {
        private boolean several() {
            return values.count() > 1;
        }

        private MeanEstimate mean() {
            double between = several() ? values.deviation() / Math.sqrt(values.count()) : 0;
            return between > own
                    ? new MeanEstimate(values.mean(), between, values.count() - 1.0)
                    : new MeanEstimate(
                            values.mean(), Math.max(own, SecondsMeter.LEAST_PERCENT), Double.POSITIVE_INFINITY);
        }

        WorkCheck.Figure figure() {
            ConfidenceInterval limits = mean().interval(CONFIDENCE);
            return new WorkCheck.Figure(values.mean(), Math.max(0, limits.low()), Math.max(0, limits.high()));
        }

        Estimate estimate(Measure measure) {
            WorkCheck.Figure figure = figure();
            Optional<Double> spread = several() && values.mean() > 0
                    ? Optional.of(100 * values.deviation() / values.mean())
                    : Optional.empty();
            return new Estimate(
                    measure,
                    figure.value(),
                    figure.low95(),
                    figure.high95(),
                    mean(),
                    runs.stream().mapToDouble(Run::steadyMinutes).sum(),
                    Optional.empty(),
                    0,
                    spread);
        }
    }

    /** Mean settling time of all steps, by logarithms; without an interval where there is one step only. */
    private Optional<Estimate> settling() {
        Moments logs = new Moments();
        runs.forEach(run -> run.settlingSeconds().forEach(s -> logs.add(Math.log(Math.max(1e-3, s)))));
        if (logs.count() == 0) {
            return Optional.empty();
        }
        double value = Math.exp(logs.mean());
        boolean several = logs.count() > 1;
        double error = several
                ? Math.max(LEAST_SETTLING_SPREAD, logs.deviation()) / Math.sqrt(logs.count())
                : LEAST_SETTLING_SPREAD;
        MeanEstimate scaled = new MeanEstimate(logs.mean(), error, Math.max(1, logs.count() - 1.0));
        ConfidenceInterval limits = scaled.interval(CONFIDENCE);
        return Optional.of(new Estimate(
                Measure.SETTLING,
                value,
                several ? Math.exp(limits.low()) : 0,
                several ? Math.exp(limits.high()) : Double.POSITIVE_INFINITY,
                scaled,
                runs.stream().mapToDouble(Run::steadyMinutes).sum(),
                Optional.of((int) logs.count()),
                0,
                Optional.empty()));
    }

    /** The smallest blip that is found surely in every one of some runs [%]. */
    static double smallestBlipPercent(List<Run> runs) {
        return SURELY_FOUND
                * runs.stream()
                        .filter(r -> r.jumps().minutes() > 0)
                        .mapToDouble(r -> r.jumps().smallestPercent())
                        .max()
                        .orElse(0);
    }

    /** Rate of the blips of a size or larger, with exact Poisson limits; empty where none were looked for. */
    static Optional<Estimate> blips(List<Run> runs, double fromPercent) {
        int count = runs.stream().mapToInt(r -> r.jumps().count(fromPercent)).sum();
        double minutes = runs.stream().mapToDouble(r -> r.jumps().minutes()).sum();
        if (!(minutes > 0)) {
            return Optional.empty();
        }
        PoissonLimits limits = PoissonLimits.of(count, CONFIDENCE);
        double error = Math.sqrt(Math.max(1, count)) / minutes;
        return Optional.of(new Estimate(
                Measure.BLIPS,
                count / minutes,
                limits.low() / minutes,
                limits.high() / minutes,
                new MeanEstimate(count / minutes, error, Double.POSITIVE_INFINITY),
                minutes,
                Optional.of(count),
                fromPercent,
                Optional.empty()));
    }
}
