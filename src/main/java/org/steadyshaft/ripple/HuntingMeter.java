package org.steadyshaft.ripple;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.SinusoidFit;
import org.steadyshaft.numeric.Turns;
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

    /** From so many parts on the swing must also keep its rhythm: mean cosine of the phase step from part to part. */
    private static final int FEWEST_FOR_RHYTHM = 4;

    private static final double LEAST_RHYTHM = 0.4;
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
        List<Turn> swings = swings(new SteadySpeed(track, steady), line.frequencyHz());
        double[] parts = swings.stream().mapToDouble(Turn::length).toArray();
        int weak = 0;
        int weakLate = 0;
        for (int i = 0; i < parts.length; i++) {
            boolean isWeak = parts[i] < WEAK * line.amplitudePercent();
            weak += isWeak ? 1 : 0;
            weakLate += isWeak && 2 * i >= parts.length ? 1 : 0;
        }
        if (parts.length < FEWEST_PARTS || (parts.length >= FEWEST_FOR_RHYTHM && rhythm(swings) < LEAST_RHYTHM)) {
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

    /** Amplitude and phase of the swing in one part, as a point in the plane turning with the swing. */
    private record Turn(double x, double y) {
        double length() {
            return Math.hypot(x, y);
        }
    }

    /** 1 where the swing goes on in step from each part to the next, about 0 where each begins anew, as a wander does. */
    private static double rhythm(List<Turn> swings) {
        double together = 0;
        double all = 0;
        for (int i = 1; i < swings.size(); i++) {
            Turn a = swings.get(i - 1);
            Turn b = swings.get(i);
            together += a.x * b.x + a.y * b.y;
            all += a.length() * b.length();
        }
        return all > 0 ? together / all : 0;
    }

    private static List<Turn> swings(SteadySpeed speed, double hz) {
        List<Turn> found = new ArrayList<>();
        for (SteadySpeed.Piece piece : speed.pieces()) {
            double[] cosine = new double[piece.cycles()];
            double[] sine = new double[piece.cycles()];
            Turns.of(piece.timeSeconds, 0, piece.cycles(), 0, hz, cosine, sine);
            int parts = (int) Math.floor(piece.stretch.durationSeconds() * hz / PART_PERIODS + ROUNDING);
            for (int part = 0; part < parts; part++) {
                double length = piece.stretch.durationSeconds() / parts;
                double from = piece.stretch.fromSeconds() + part * length;
                int first = piece.firstNotBefore(from);
                int end = piece.firstNotBefore(from + length);
                if (end - first > 2 * PART_PERIODS) {
                    SinusoidFit fit =
                            SinusoidFit.of(piece.deviationPercent, piece.weightSeconds, cosine, sine, first, end);
                    found.add(new Turn(fit.cosine(), fit.sine()));
                }
            }
        }
        return found;
    }
}
