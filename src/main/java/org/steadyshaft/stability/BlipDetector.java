package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds blips: ripple lines and the local level are taken out of the cycle speeds; where the rest departs further than its
 * robust spread allows, {@link EdgeFinder} looks for the sudden jumps that make it a blip. The level is a running median, so
 * that a blip hardly shifts it. The threshold is set for one false blip in {@value #HOURS_A_FALSE_BLIP} hours of independent normal
 * residuals.
 */
public final class BlipDetector {
    private static final double HOURS_A_FALSE_BLIP = 20;

    /**
     * The level follows over these times, round by round: a long one first, which large blips with a slow return do not
     * bend, then shorter ones, which follow a wander; each round sees the level without what the rounds before found.
     */
    private static final double[] LEVEL_SECONDS_BY_ROUND = {6, 6, 3, 3, 1.2, 1.2};

    private static final double LAST_LEVEL_SECONDS = LEVEL_SECONDS_BY_ROUND[LEVEL_SECONDS_BY_ROUND.length - 1];

    /** A blip ends where it falls below this many sigma, or below this share of its peak. */
    private static final double END_SIGMA = 2;

    private static final double END_SHARE = 0.03;

    /** Nothing smaller is called a blip, however quiet the record: our own figure, well below what a hand can feel. */
    private static final double LEAST_PERCENT = 0.4;

    private final BlipJudge judge;

    public BlipDetector(double mainsHz) {
        this.judge = new BlipJudge(mainsHz);
    }

    /** Time before and after a blip from which the level across it is drawn. */
    private static final double SHOULDER_SECONDS = 0.2;

    /**
     * @param lineHz frequencies of the ripple lines to take out
     * @return the blips; empty without a steady stretch
     */
    public Optional<Blips> detect(SpeedTrack track, List<Stretch> steady, List<Double> lineHz) {
        SteadySpeed speed = new SteadySpeed(track, steady);
        if (speed.pieces().isEmpty()) {
            return Optional.empty();
        }
        double falseChance = 1 / (HOURS_A_FALSE_BLIP * 3600 * speed.meanCycleHz());
        double sigmas = NormalDistribution.of(0, 1).inverseSurvivalProbability(0.5 * falseChance);
        List<Double> fast =
                lineHz.stream().filter(hz -> hz * LAST_LEVEL_SECONDS > 1).toList();
        List<Blip> events = new ArrayList<>();
        double largestLimit = 0;
        for (SteadySpeed.Piece piece : speed.pieces()) {
            boolean[] covered = new boolean[piece.cycles()];
            double[] rest = piece.deviationPercent;
            List<Departure> departures = List.of();
            double limit = 0;
            for (double levelSeconds : LEVEL_SECONDS_BY_ROUND) {
                rest = new LineRemover(piece, covered).without(fast);
                double[] residual = withoutLevel(piece, rest, bridged(piece, rest, covered), levelSeconds);
                double sigma = Robust.sigma(residual);
                limit = Math.max(LEAST_PERCENT, sigmas * sigma);
                departures = departures(residual, sigma, limit);
                departures.forEach(d -> Arrays.fill(covered, d.from, d.to + 1, true));
            }
            new EdgeFinder(track, piece, rest, limit, judge).addBlips(departures, events);
            largestLimit = Math.max(largestLimit, limit);
        }
        return Optional.of(new Blips(events, speed.seconds() / 60, largestLimit));
    }

    /** A departure of the speed by indices into its piece, both included. */
    record Departure(int from, int to, boolean up) {}

    /** What is left of {@code rest} above the running median of {@code calm}. */
    private static double[] withoutLevel(SteadySpeed.Piece piece, double[] rest, double[] calm, double levelSeconds) {
        int halfWidth = (int) Math.max(3, Math.round(0.5 * levelSeconds / piece.cycleSeconds()));
        double[] residual = Robust.runningMedian(calm, halfWidth);
        for (int i = 0; i < rest.length; i++) {
            residual[i] = rest[i] - residual[i];
        }
        return residual;
    }

    /** A copy in which every blip, or row of blips, is bridged by a straight line from the level before to that after. */
    private static double[] bridged(SteadySpeed.Piece piece, double[] rest, boolean[] covered) {
        double[] calm = rest.clone();
        int shoulder = (int) Math.max(3, Math.round(SHOULDER_SECONDS / piece.cycleSeconds()));
        int from = -1;
        int last = -1;
        for (int i = 0; i <= covered.length; i++) {
            if (i < covered.length && covered[i]) {
                from = from < 0 ? i : from;
                last = i;
            } else if (from >= 0 && (i == covered.length || i - last > shoulder)) {
                bridge(rest, calm, Math.max(0, from - 1), Math.min(rest.length - 1, last + 1), shoulder);
                from = -1;
            }
        }
        return calm;
    }

    private static void bridge(double[] rest, double[] calm, int from, int to, int shoulder) {
        double before = levelOf(rest, from - shoulder, from);
        double after = levelOf(rest, to + 1, to + 1 + shoulder);
        double left = Double.isNaN(before) ? after : before;
        double right = Double.isNaN(after) ? before : after;
        for (int i = from; i <= to && !Double.isNaN(left); i++) {
            calm[i] = left + (right - left) * (i - from + 1.0) / (to - from + 2.0);
        }
    }

    /** Median of a part of the values; NaN where the part lies outside them. */
    private static double levelOf(double[] values, int from, int to) {
        int first = Math.max(0, from);
        int end = Math.min(values.length, to);
        return end > first ? Robust.median(Arrays.copyOfRange(values, first, end)) : Double.NaN;
    }

    private static List<Departure> departures(double[] residual, double sigma, double limit) {
        List<Departure> departures = new ArrayList<>();
        int i = 0;
        while (i < residual.length) {
            if (Math.abs(residual[i]) < limit) {
                i++;
                continue;
            }
            int peak = peakFrom(residual, i);
            double sign = Math.signum(residual[peak]);
            double stop = Math.max(END_SIGMA * sigma, Math.min(0.5 * limit, END_SHARE * Math.abs(residual[peak])));
            int from = peak;
            while (from > 0 && residual[from - 1] * sign > stop) {
                from--;
            }
            int to = peak;
            while (to < residual.length - 1 && residual[to + 1] * sign > stop) {
                to++;
            }
            departures.add(new Departure(from, to, sign > 0));
            i = to + 1;
        }
        return departures;
    }

    /** The largest departure of the same sign that follows {@code i} before the sign changes. */
    private static int peakFrom(double[] residual, int i) {
        int peak = i;
        for (int j = i; j < residual.length && residual[j] * residual[i] > 0; j++) {
            peak = Math.abs(residual[j]) > Math.abs(residual[peak]) ? j : peak;
        }
        return peak;
    }
}
