package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.steadyshaft.numeric.AllanDeviation;
import org.steadyshaft.numeric.PowerLawNoise;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Measures the overlapping Allan deviation of the speed, as a share of its mean, over the longest steady stretch; blips, ripple
 * and drift are part of it.
 *
 * <p>The phase is how far the shaft is ahead of even running [s], at even steps of angle of the mean length of a cycle: the angle
 * is the sum of speed times duration, cycle by cycle, so free of the pole pattern, and the time at each step is interpolated
 * linearly between the ends of cycles. Without a pole pattern the steps are those ends and nothing is interpolated; with one of a
 * few percent of a cycle the first point comes out lower by as much, the others by less. Steps of time would lie anywhere between
 * the ends as soon as the speed wanders by a cycle, and average: of white noise of the speed they take 29, 13, 6 and 2 % off the
 * first four octaves (AllanMeterTest), of noise of the crossings 18 % off all. The price of steps of angle: where the speed is off
 * its mean by a share e, tau is too, and the deviation is wrong by about that share of itself.
 *
 * <p>Intervals: chi-square with the degrees of freedom of the noise that is found at that tau, and the fewer of two kinds where
 * it is not clearly one; at long tau, with fewer than 30 steps, the kind of the tau before. A sustained swing is no noise: where
 * it rules, the interval is that of a noise with the same correlation and no statement about the swing.
 *
 * <p>Memory: some doubles a cycle. Time: one pass over the cycles for each octave.
 */
public final class AllanMeter {
    private static final double TAIL = 0.025;

    /** The longest tau is this share of the stretch: beyond it there are about two independent differences. */
    private static final int LONGEST_SHARE = 3;

    private static final int FEWEST_CYCLES = 9;

    /** An exponent of noise nearer to the next kind than this may be of either. */
    private static final double DOUBT = 0.25;

    /** @return a point an octave from the mean length of a cycle; none without nine unbroken cycles in a steady stretch */
    public List<StabilityPoint> measure(SpeedTrack track, List<Stretch> steady) {
        return steady.stream()
                .max(Comparator.comparingDouble(Stretch::durationSeconds))
                .map(stretch -> measure(track, stretch))
                .orElse(List.of());
    }

    private static List<StabilityPoint> measure(SpeedTrack track, Stretch stretch) {
        int end = track.firstNotBefore(Math.nextUp(stretch.toSeconds()));
        int longestFrom = 0;
        int longest = 0;
        int from = track.firstNotBefore(stretch.fromSeconds());
        for (int i = from + 1; i <= end; i++) {
            if (i == end || !track.follows(i)) {
                if (i - from > longest) {
                    longestFrom = from;
                    longest = i - from;
                }
                from = i;
            }
        }
        if (longest < FEWEST_CYCLES) {
            return List.of();
        }
        double stepSeconds = (track.toSeconds(longestFrom + longest - 1) - track.fromSeconds(longestFrom)) / longest;
        return points(leadSeconds(track, longestFrom, longest, stepSeconds), stepSeconds);
    }

    /** How far the shaft is ahead of even running at each step of angle, both ends included. */
    private static double[] leadSeconds(SpeedTrack track, int from, int count, double stepSeconds) {
        double[] angle = new double[count + 1];
        for (int i = 0; i < count; i++) {
            angle[i + 1] = angle[i] + track.speedRpm(from + i) * track.durationSeconds(from + i);
        }
        double[] lead = new double[count + 1];
        double startSeconds = track.fromSeconds(from);
        int cycle = 0;
        for (int step = 1; step < count; step++) {
            double wanted = angle[count] * step / count;
            while (cycle < count - 1 && angle[cycle + 1] < wanted) {
                cycle++;
            }
            double share = (wanted - angle[cycle]) / (angle[cycle + 1] - angle[cycle]);
            double seconds = track.fromSeconds(from + cycle) + share * track.durationSeconds(from + cycle);
            lead[step] = step * stepSeconds - (seconds - startSeconds);
        }
        return lead;
    }

    private static List<StabilityPoint> points(double[] phase, double stepSeconds) {
        List<StabilityPoint> points = new ArrayList<>();
        OptionalDouble exponent = OptionalDouble.empty();
        for (int factor = 1; factor <= (phase.length - 1) / LONGEST_SHARE; factor *= 2) {
            OptionalDouble here = PowerLawNoise.exponent(phase, factor);
            exponent = here.isPresent() ? here : exponent;
            double degrees = degrees(exponent, phase.length, factor);
            double deviation =
                    AllanDeviation.ofPhase(phase, stepSeconds, factor).deviation();
            ChiSquaredDistribution spread = ChiSquaredDistribution.of(degrees);
            points.add(new StabilityPoint(
                    factor * stepSeconds,
                    deviation,
                    deviation * Math.sqrt(degrees / spread.inverseSurvivalProbability(TAIL)),
                    deviation * Math.sqrt(degrees / spread.inverseCumulativeProbability(TAIL))));
        }
        return points;
    }

    /** The fewest degrees of freedom of the kinds of noise that it may be; of all kinds if nothing is known. */
    private static double degrees(OptionalDouble exponent, int points, int factor) {
        if (exponent.isEmpty()) {
            return Arrays.stream(PowerLawNoise.values())
                    .mapToDouble(noise -> noise.degreesOfFreedom(points, factor))
                    .min()
                    .orElseThrow();
        }
        double above = PowerLawNoise.nearest(exponent.getAsDouble() + DOUBT).degreesOfFreedom(points, factor);
        double below = PowerLawNoise.nearest(exponent.getAsDouble() - DOUBT).degreesOfFreedom(points, factor);
        return Math.min(above, below);
    }
}
