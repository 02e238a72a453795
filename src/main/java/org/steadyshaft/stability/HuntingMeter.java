package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.SinusoidFit;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Tells hunting, a slow swing that lasts, from ripple and from a speed that merely wanders: the largest line with that cause
 * must be there in nearly every part of the steady stretches, each some periods long. How its amplitude changes from the first parts
 * to the last tells whether the loop is on its way to calm or to trouble.
 */
public final class HuntingMeter {
    /** A part spans this many periods: enough for an amplitude, short enough to see it come and go. */
    private static final double PART_PERIODS = 3;

    /** Wander passes any frequency now and then; a swing that is weaker than this in more than a quarter of the parts does not last. */
    private static final double WEAK = 0.4;

    private static final double MOST_WEAK = 0.25;
    /** A stretch that is a little shorter than so many parts still holds them. */
    private static final double ROUNDING = 0.1;

    private static final int FEWEST_PARTS = 2;

    /** Last third over first third from which a swing grows, or below whose inverse it dies (our own figure). */
    private static final double CLEARLY = 1.5;

    /** @return the hunting; empty where there is none or no steady stretch */
    public Optional<Hunting> measure(SpeedTrack track, List<Stretch> steady, List<RippleLine> lines) {
        Optional<RippleLine> largest = lines.stream()
                .filter(line -> line.cause() == RippleCause.HUNTING)
                .findFirst();
        if (largest.isEmpty()) {
            return Optional.empty();
        }
        RippleLine line = largest.get();
        double[] parts = amplitudes(new SteadySpeed(track, steady), line.frequencyHz());
        int weak = 0;
        int weakLate = 0;
        for (int i = 0; i < parts.length; i++) {
            boolean isWeak = parts[i] < WEAK * line.amplitudePercent();
            weak += isWeak ? 1 : 0;
            weakLate += isWeak && 2 * i >= parts.length ? 1 : 0;
        }
        if (parts.length < FEWEST_PARTS) {
            return Optional.empty();
        }
        double ratio = trend(parts);
        boolean lasts = weak <= MOST_WEAK * parts.length
                || (ratio > CLEARLY && weakLate == 0)
                || (ratio < 1 / CLEARLY && weakLate == weak);
        if (!lasts || weak > parts.length / 2) {
            return Optional.empty();
        }
        Hunting.Trend trend = ratio > CLEARLY
                ? Hunting.Trend.GROWING
                : ratio < 1 / CLEARLY ? Hunting.Trend.DYING : Hunting.Trend.SUSTAINED;
        return Optional.of(new Hunting(line.frequencyHz(), line.amplitudePercent(), trend));
    }

    /** Mean amplitude of the last third of the parts over that of the first third. */
    private static double trend(double[] parts) {
        int third = Math.max(1, parts.length / 3);
        double first = 0;
        double last = 0;
        for (int i = 0; i < third; i++) {
            first += parts[i];
            last += parts[parts.length - 1 - i];
        }
        return first > 0 ? last / first : Double.POSITIVE_INFINITY;
    }

    private static double[] amplitudes(SteadySpeed speed, double hz) {
        List<Double> found = new ArrayList<>();
        for (SteadySpeed.Piece piece : speed.pieces()) {
            int parts = (int) Math.floor(piece.stretch.durationSeconds() * hz / PART_PERIODS + ROUNDING);
            for (int part = 0; part < parts; part++) {
                double length = piece.stretch.durationSeconds() / parts;
                double from = piece.stretch.fromSeconds() + part * length;
                int first = piece.firstNotBefore(from);
                int end = piece.firstNotBefore(from + length);
                if (end - first > 2 * PART_PERIODS) {
                    found.add(SinusoidFit.of(new Part(piece, first, end), hz).amplitude());
                }
            }
        }
        return found.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private record Part(SteadySpeed.Piece piece, int first, int end) implements SinusoidFit.Values {
        @Override
        public int count() {
            return end - first;
        }

        @Override
        public double timeSeconds(int index) {
            return piece.timeSeconds[first + index] - piece.timeSeconds[first];
        }

        @Override
        public double value(int index) {
            return piece.deviationPercent[first + index];
        }

        @Override
        public double weight(int index) {
            return piece.weightSeconds[first + index];
        }
    }
}
