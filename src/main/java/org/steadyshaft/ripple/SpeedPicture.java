package org.steadyshaft.ripple;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoublePredicate;
import org.steadyshaft.numeric.LineFit;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.voltage.LineMotion;
import org.steadyshaft.voltage.SlowSpeed;
import org.steadyshaft.voltage.WaveformReading;

/**
 * The speed as it was read, without noise: slow part and lines, as deviation from a straight line through each steady stretch [% of the
 * mean], second by second.
 */
final class SpeedPicture {
    /** Points a second at which slow part and lines are added up; ten a period of the fastest line of some size. */
    private static final double POINTS_A_SECOND = 2000;

    static final double SECOND = 1;

    /** The smoothed speed bends so long before and behind a jump. */
    private static final double BESIDE_JUMP_SECONDS = 0.8;

    private SpeedPicture() {}

    /** All seconds of the pieces that lie in steady running. */
    static List<SteadySecond> seconds(WaveformReading reading, List<Stretch> steady) {
        List<SteadySecond> seconds = new ArrayList<>();
        for (Stretch stretch : steady) {
            trend(reading, stretch)
                    .ifPresent(line -> addSeconds(reading, stretch, (part, from, block) -> line, at -> true, seconds));
        }
        return seconds;
    }

    /**
     * The seconds among the tails of jumps that come faster than they fade: each beside a straight line of its own, since the speed is nowhere at
     * one level, and without those that hold a jump. They hold from one over a second on.
     *
     * @param jumps when they begin [s]
     */
    static List<SteadySecond> secondsAmong(WaveformReading reading, List<Stretch> steady, List<Double> jumps) {
        List<SteadySecond> seconds = new ArrayList<>();
        DoublePredicate isFree = at ->
                jumps.stream().noneMatch(j -> j > at - BESIDE_JUMP_SECONDS && j < at + SECOND + BESIDE_JUMP_SECONDS);
        for (Stretch stretch : steady) {
            addSeconds(reading, stretch, (part, from, block) -> own(reading, part, from, block), isFree, seconds);
        }
        return seconds;
    }

    /** Straight line through the slow speed of one second. */
    private static LineFit own(WaveformReading reading, int part, int from, int block) {
        SlowSpeed slow = reading.slow();
        double[] time = new double[block];
        double[] share = new double[block];
        for (int i = 0; i < block; i++) {
            time[i] = slow.fromSeconds(part) + (from + i) * slow.stepSeconds(part);
            share[i] = slow.radPerSecond(part, from + i) / reading.meanRadPerSecond() - 1;
        }
        return LineFit.of(time, share);
    }

    /** Straight line through the slow speed of a stretch, as a share of the mean speed less one. */
    private static Optional<LineFit> trend(WaveformReading reading, Stretch stretch) {
        SlowSpeed slow = reading.slow();
        List<Double> time = new ArrayList<>();
        List<Double> share = new ArrayList<>();
        for (int part = 0; part < slow.parts(); part++) {
            for (int i = 0; i < slow.size(part); i++) {
                double at = slow.fromSeconds(part) + i * slow.stepSeconds(part);
                if (stretch.contains(at)) {
                    time.add(at);
                    share.add(slow.radPerSecond(part, i) / reading.meanRadPerSecond() - 1);
                }
            }
        }
        return time.size() < 3
                ? Optional.empty()
                : Optional.of(LineFit.of(
                        time.stream().mapToDouble(t -> t).toArray(),
                        share.stream().mapToDouble(t -> t).toArray()));
    }

    /** The straight line beside which a second is looked at: its part of the slow speed, first point and number of points. */
    private interface Line {
        LineFit of(int part, int from, int block);
    }

    private static void addSeconds(
            WaveformReading reading, Stretch stretch, Line line, DoublePredicate isTaken, List<SteadySecond> seconds) {
        SlowSpeed slow = reading.slow();
        for (int part = 0; part < slow.parts(); part++) {
            double step = slow.stepSeconds(part);
            int block = (int) Math.round(SECOND / step);
            for (int from = 0; from + block <= slow.size(part); from += block) {
                double at = slow.fromSeconds(part) + from * step;
                if (stretch.contains(at) && stretch.contains(at + SECOND) && isTaken.test(at)) {
                    seconds.add(second(reading, part, from, block, line.of(part, from, block)));
                }
            }
        }
    }

    private static SteadySecond second(WaveformReading reading, int part, int from, int block, LineFit line) {
        SlowSpeed slow = reading.slow();
        double step = slow.stepSeconds(part);
        double start = slow.fromSeconds(part) + from * step;
        double[] share = new double[block];
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < block; i++) {
            double at = start + i * step;
            share[i] = slow.radPerSecond(part, from + i) / reading.meanRadPerSecond() - 1 - line.at(at);
            sum += share[i];
            squares += share[i] * share[i];
        }
        LineMotion motion = reading.motion();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        int points = (int) (block * step * POINTS_A_SECOND);
        for (int i = 0; i < points; i++) {
            double at = start + i / POINTS_A_SECOND;
            int index = (int) Math.min(block - 1.0, i / POINTS_A_SECOND / step);
            double all = share[index] + motion.share(at);
            low = Math.min(low, all);
            high = Math.max(high, all);
        }
        double noise = reading.slowNoiseShare() * reading.slowNoiseShare();
        double fast = motion.meanSquare(start + 0.5 * SECOND);
        return new SteadySecond(
                start,
                block * step,
                100 * sum / block,
                1e4 * (squares / block - noise),
                1e4 * fast,
                100 * low,
                100 * high);
    }
}
