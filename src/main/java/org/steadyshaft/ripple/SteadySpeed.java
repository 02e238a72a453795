package org.steadyshaft.ripple;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.LineFit;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * The speed in the steady stretches as deviation from a straight line through each [% of its mean]: what every measure of
 * steadiness starts from. Plain arrays for the inner loops, never changed by those who read.
 */
final class SteadySpeed {
    /** One stretch. */
    static final class Piece {
        final Stretch stretch;
        final double meanRpm;
        final double[] timeSeconds;
        final double[] weightSeconds;
        final double[] deviationPercent;
        final boolean[] leftOut;

        private Piece(SpeedTrack track, Stretch stretch) {
            int from = track.firstNotBefore(stretch.fromSeconds());
            int to = track.firstNotBefore(Math.nextUp(stretch.toSeconds()));
            this.stretch = stretch;
            this.meanRpm = track.meanRpm(stretch);
            this.timeSeconds = new double[to - from];
            this.weightSeconds = new double[to - from];
            this.deviationPercent = new double[to - from];
            this.leftOut = new boolean[to - from];
            for (int i = from; i < to; i++) {
                timeSeconds[i - from] = track.timeSeconds(i);
                weightSeconds[i - from] = track.durationSeconds(i);
                deviationPercent[i - from] = 100 * (track.speedRpm(i) / meanRpm - 1);
            }
            LineFit line = LineFit.of(timeSeconds, deviationPercent);
            for (int i = 0; i < deviationPercent.length; i++) {
                deviationPercent[i] -= line.at(timeSeconds[i]);
            }
        }

        /** Index of the first cycle whose middle is not before a time; cycles() if there is none. */
        int firstNotBefore(double seconds) {
            int at = Arrays.binarySearch(timeSeconds, seconds);
            return at < 0 ? -at - 1 : at;
        }

        int cycles() {
            return timeSeconds.length;
        }

        /** Mean length of a cycle. */
        double cycleSeconds() {
            double sum = 0;
            for (double weight : weightSeconds) {
                sum += weight;
            }
            return sum / weightSeconds.length;
        }
    }

    private final List<Piece> pieces = new ArrayList<>();

    /** @param stretches stretches with three cycles at least, none over a gap */
    SteadySpeed(SpeedTrack track, List<Stretch> stretches) {
        for (Stretch stretch : stretches) {
            pieces.add(new Piece(track, stretch));
        }
    }

    List<Piece> pieces() {
        return pieces;
    }

    /** Leaves the cycles between two times out: marks them and draws a straight line from those before to those after. */
    void level(double fromSeconds, double toSeconds) {
        for (Piece piece : pieces) {
            int from = piece.firstNotBefore(fromSeconds);
            int to = piece.firstNotBefore(toSeconds);
            double before = from > 0 ? piece.deviationPercent[from - 1] : 0;
            double after = to < piece.cycles() ? piece.deviationPercent[to] : 0;
            for (int i = from; i < to; i++) {
                piece.leftOut[i] = true;
                piece.deviationPercent[i] = before + (after - before) * (i - from + 1) / (to - from + 1);
            }
        }
    }

    double seconds() {
        return pieces.stream().mapToDouble(p -> p.stretch.durationSeconds()).sum();
    }

    /** Tacho frequency of the usual cycle [Hz]: what blips with a slow return do to the mean does not move it. */
    double usualCycleHz() {
        double[] seconds = new double[pieces.stream().mapToInt(Piece::cycles).sum()];
        int filled = 0;
        for (Piece piece : pieces) {
            System.arraycopy(piece.weightSeconds, 0, seconds, filled, piece.cycles());
            filled += piece.cycles();
        }
        return 1 / Robust.median(seconds);
    }

    /** Mean tacho frequency over the pieces [Hz], weighted by their length. */
    double meanCycleHz() {
        double cycles = pieces.stream().mapToDouble(Piece::cycles).sum();
        double covered =
                pieces.stream().mapToDouble(p -> p.cycles() * p.cycleSeconds()).sum();
        return cycles / covered;
    }
}
