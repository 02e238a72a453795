package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;

/**
 * One amplitude from a line's readings in the pieces. Where the pieces show it clearly, their powers are averaged, each less what the
 * noise adds: phases need not be followed. Where they do not, the readings are added as they stand to the mains' phase, which keeps what
 * powers would lose in the noise.
 */
final class PieceLines {
    /** A piece shows a line clearly when its power is this many times the noise's. */
    private static final double CLEAR = 25;

    /** Lengths, readings and variances, one a piece. */
    private final List<double[]> readings = new ArrayList<>();

    /**
     * @param seconds length of the piece
     * @param cosine and sine, the line's parts
     * @param variance of either
     */
    void add(double seconds, double cosine, double sine, double variance) {
        readings.add(new double[] {seconds, cosine, sine, variance});
    }

    /**
     * Amplitude and its standard uncertainty.
     *
     * @param turned phase [rad] by which each piece's reading must be turned back, one a piece
     */
    double[] amplitude(double[] turned) {
        boolean clear = readings.stream().allMatch(r -> r[1] * r[1] + r[2] * r[2] > CLEAR * r[3]);
        return clear ? byPower() : byPhase(turned);
    }

    private double[] byPower() {
        double power = 0;
        double variance = 0;
        double seconds = 0;
        for (double[] r : readings) {
            double square = r[1] * r[1] + r[2] * r[2];
            power += r[0] * (square - r[3]);
            variance += r[0] * r[0] * r[3] * square;
            seconds += r[0];
        }
        double amplitude = Math.sqrt(Math.max(0, power / seconds));
        return new double[] {amplitude, Math.sqrt(variance) / seconds / amplitude};
    }

    private double[] byPhase(double[] turned) {
        double re = 0;
        double im = 0;
        double weights = 0;
        for (int i = 0; i < readings.size(); i++) {
            double[] r = readings.get(i);
            double cos = Math.cos(turned[i]);
            double sin = Math.sin(turned[i]);
            re += (r[1] * cos - r[2] * sin) / r[3];
            im += (r[1] * sin + r[2] * cos) / r[3];
            weights += 1 / r[3];
        }
        double square = (re * re + im * im) / (weights * weights);
        double variance = 1 / weights;
        return new double[] {Math.sqrt(Math.max(0, square - variance)), Math.sqrt(variance)};
    }
}
