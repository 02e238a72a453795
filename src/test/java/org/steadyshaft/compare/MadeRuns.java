package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.ripple.RippleCause;

/**
 * Runs whose true ripple, wander and rate of blips are known, made second by second: logarithms of the mean square, and means of
 * seconds, follow autoregressions of the first order, so that neighbouring seconds are alike; blips come by chance (Poisson).
 *
 * @param ripplePercent true rms ripple, in the middle of what the runs scatter about
 * @param wanderPercent standard deviation of the means of seconds
 * @param blipsPerMinute true rate
 * @param likeness correlation of a second with the next; from 0 to below 1
 * @param runSpread standard deviation of the logarithms of ripple and wander from run to run
 * @param speedSpreadPercent standard deviation of the mean speed from run to run
 */
public record MadeRuns(
        double ripplePercent,
        double wanderPercent,
        double blipsPerMinute,
        double likeness,
        double runSpread,
        double speedSpreadPercent) {
    /** Standard deviation of the logarithm of a second's mean square within a run. */
    private static final double SECOND_SPREAD = 0.4;

    /** Neighbouring seeds give alike first numbers; multiplied by a large odd number they do not. */
    public static Random random(long seed) {
        return new Random((seed + 1) * 0x9E3779B97F4A7C15L);
    }

    /** A steady circuit whose runs are all alike. */
    public static MadeRuns alike(double ripplePercent, double likeness) {
        return new MadeRuns(ripplePercent, 0.1, 3, likeness, 0, 0);
    }

    public Run run(String name, CaptureLabel label, double rpm, int seconds, Random random) {
        double factor = Math.exp(runSpread * random.nextGaussian());
        double fresh = Math.sqrt(1 - likeness * likeness);
        double level = random.nextGaussian();
        double mean = random.nextGaussian();
        List<Run.Block> blocks = new ArrayList<>();
        List<Run.Point> trace = new ArrayList<>();
        double speed = rpm * (1 + 0.01 * speedSpreadPercent * random.nextGaussian());
        for (int i = 0; i < seconds; i++) {
            double rms = ripplePercent * factor * Math.exp(0.5 * SECOND_SPREAD * level);
            double swing = rms * (3 + 0.2 * random.nextGaussian());
            double away = wanderPercent * factor * mean;
            blocks.add(new Run.Block(away, rms * rms, Math.max(0, swing), 1));
            trace.add(new Run.Point(i, speed * (1 + 0.01 * (away + (i % 2 == 0 ? rms : -rms)))));
            level = likeness * level + fresh * random.nextGaussian();
            mean = likeness * mean + fresh * random.nextGaussian();
        }
        double minutes = seconds / 60.0;
        int blips = poisson(blipsPerMinute * minutes, random);
        List<Run.Jump> jumps = new ArrayList<>();
        for (int i = 0; i < blips; i++) {
            jumps.add(new Run.Jump(3, BlipCause.EXTRA_CONDUCTION));
        }
        return new Run(
                name,
                label,
                Run.Trust.WHOLE,
                speed,
                0.001 * rpm,
                blocks,
                Optional.of(new Run.RippleLines(
                        0.02,
                        325,
                        ripplePercent,
                        0.01 * ripplePercent,
                        Run.MainsLine.of(ripplePercent, 0.01 * ripplePercent),
                        Run.MainsLine.of(0.01, 0.002))),
                List.of(new Run.Line(100, ripplePercent, 0.01 * ripplePercent, RippleCause.TWICE_MAINS)),
                new Run.Jumps(jumps, minutes, 0.4),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                trace,
                List.of(new Run.Point(50, 0.3 * ripplePercent), new Run.Point(100, ripplePercent)));
    }

    /** The same run with other faults and alarms. */
    public static Run withTrust(Run run, Run.Trust trust) {
        return new Run(
                run.name(),
                run.label(),
                trust,
                run.meanRpm(),
                run.dataRpm(),
                run.blocks(),
                run.ripple(),
                run.lines(),
                run.jumps(),
                run.hunting(),
                run.loop(),
                run.settlingSeconds(),
                run.trace(),
                run.spectrum());
    }

    public static CaptureLabel label(String circuit, String setting, String load) {
        return new CaptureLabel(circuit, setting, load, "", Map.of());
    }

    /** Counts how many waiting times fit into the span. */
    private static int poisson(double mean, Random random) {
        int count = 0;
        for (double at = -Math.log(1 - random.nextDouble()); at < mean; at -= Math.log(1 - random.nextDouble())) {
            count++;
        }
        return count;
    }
}
