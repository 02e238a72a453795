package org.steadyshaft.blip;

import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.VoltagePiece;

/** The angle of a piece and its variance at evenly spaced times, no closer than a rise needs: what candidates and lines are sought on. */
final class AngleGrid {
    /** Fine enough for a rise of 8 ms. */
    private static final double FINEST_SECONDS = 0.0025;

    /** The variance is averaged over so many places on either side, and never below half of what is usual in the piece. */
    private static final int SPREAD_PLACES = 4;

    private static final double LEAST_SHARE = 0.5;

    final double firstSeconds;
    final double stepSeconds;
    final double[] angle;
    final double[] variance;
    final boolean[] shut;

    AngleGrid(VoltagePiece piece) {
        LocalSeries series = piece.series();
        int n = series.size();
        this.stepSeconds = Math.max(FINEST_SECONDS, piece.quarterSeconds());
        this.firstSeconds = series.timeSeconds(0);
        int count = (int) Math.floor((series.timeSeconds(n - 1) - firstSeconds) / stepSeconds) + 1;
        this.angle = new double[count];
        this.variance = new double[count];
        this.shut = new boolean[count];
        double[] spread = localVariance(series);
        int at = 0;
        for (int i = 0; i < count; i++) {
            double t = timeSeconds(i);
            while (at + 2 < n && series.timeSeconds(at + 1) <= t) {
                at++;
            }
            double u = (t - series.timeSeconds(at)) / (series.timeSeconds(at + 1) - series.timeSeconds(at));
            angle[i] = cubic(series, at, u);
            variance[i] = Math.max(spread[at], spread[at + 1]);
            shut[i] = series.level(at) < VoltagePiece.OPEN_LEVEL || series.level(at + 1) < VoltagePiece.OPEN_LEVEL;
        }
    }

    static double[] localVariance(LocalSeries series) {
        int n = series.size();
        double[] all = new double[n];
        double[] sum = new double[n + 1];
        for (int k = 0; k < n; k++) {
            all[k] = series.variance(k);
            sum[k + 1] = sum[k] + all[k];
        }
        double least = LEAST_SHARE * org.steadyshaft.numeric.Robust.median(all);
        double[] spread = new double[n];
        for (int k = 0; k < n; k++) {
            int a = Math.max(0, k - SPREAD_PLACES);
            int b = Math.min(n, k + SPREAD_PLACES + 1);
            spread[k] = Math.max(least, (sum[b] - sum[a]) / (b - a));
        }
        return spread;
    }

    /** Cubic through four neighbouring places as if they were evenly spaced, on what a straight line leaves. */
    private static double cubic(LocalSeries s, int at, double u) {
        double line = s.angle(at) + u * (s.angle(at + 1) - s.angle(at));
        if (at < 1 || at + 2 >= s.size()) {
            return line;
        }
        double first = s.angle(at - 1) - 2 * s.angle(at) + s.angle(at + 1);
        double second = s.angle(at) - 2 * s.angle(at + 1) + s.angle(at + 2);
        return line - u * (1 - u) / 6 * ((2 - u) * first + (1 + u) * second);
    }

    int size() {
        return angle.length;
    }

    double timeSeconds(int i) {
        return firstSeconds + i * stepSeconds;
    }

    int nearest(double seconds) {
        return (int) Math.max(0, Math.min(size() - 1L, Math.round((seconds - firstSeconds) / stepSeconds)));
    }
}
