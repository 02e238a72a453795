package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.numeric.SinusoidFit;

/**
 * What of each line the smooth angle holds: slow lines pass it in part. That part belongs to the line, and is taken out of the slow speed,
 * so that nothing is counted twice.
 */
final class SlowParts {
    /** Faster lines leave less than this in the smooth angle. */
    private static final double LEAST_GAIN = 0.005;

    /** Of the rate at which the slow speed is kept: a faster line would be asked at its image. */
    private static final double HIGHEST_SHARE = 0.45;

    private final List<double[]> slow = new ArrayList<>();

    /** By piece: cosine and sine of each line's speed in the smooth angle, as a share of the mean speed. */
    private final List<double[]> parts = new ArrayList<>();

    SlowParts(VoltageFit fit, SmoothAngle smooth) {
        for (AnglePiece piece : fit.pieces()) {
            double[] rest = piece.slowRadPerSecond.clone();
            double[] part = new double[2 * fit.columns().lineHz().size()];
            for (int j = 0; j < fit.columns().lineHz().size(); j++) {
                double hz = fit.columns().lineHz().get(j);
                if (Math.abs(smooth.gain(hz)) > LEAST_GAIN && hz * step(piece) < HIGHEST_SHARE) {
                    SinusoidFit line = SinusoidFit.of(new Values(piece, rest), hz);
                    part[2 * j] = line.cosine() / piece.meanRadPerSecond;
                    part[2 * j + 1] = line.sine() / piece.meanRadPerSecond;
                    for (int i = 0; i < rest.length; i++) {
                        rest[i] -= line.sineAt(hz, piece.firstSeconds + i * step(piece));
                    }
                }
            }
            slow.add(rest);
            parts.add(part);
        }
    }

    private static double step(AnglePiece piece) {
        return piece.slowStride * piece.stepSeconds;
    }

    double cosine(int piece, int line) {
        return parts.get(piece)[2 * line];
    }

    double sine(int piece, int line) {
        return parts.get(piece)[2 * line + 1];
    }

    /** The slow speed of the pieces without the lines. */
    SlowSpeed rest(List<AnglePiece> pieces) {
        SlowSpeed.Builder all = new SlowSpeed.Builder();
        for (int p = 0; p < pieces.size(); p++) {
            all.add(pieces.get(p).firstSeconds, step(pieces.get(p)), slow.get(p));
        }
        return all.build();
    }

    /** A piece's slow speed under a Hann window. */
    private record Values(AnglePiece piece, SlowRest rest) implements SinusoidFit.Values {
        Values(AnglePiece piece, double[] values) {
            this(piece, new SlowRest(values));
        }

        @Override
        public int count() {
            return rest.values.length;
        }

        @Override
        public double timeSeconds(int index) {
            return piece.firstSeconds + index * step(piece);
        }

        @Override
        public double value(int index) {
            return rest.values[index];
        }

        @Override
        public double weight(int index) {
            return 1 - Math.cos(2 * Math.PI * (index + 0.5) / count());
        }
    }

    /** Wraps the values. */
    private static final class SlowRest {
        private final double[] values;

        SlowRest(double[] values) {
            this.values = values;
        }
    }
}
