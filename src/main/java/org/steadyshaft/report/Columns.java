package org.steadyshaft.report;

import java.util.Arrays;
import org.steadyshaft.signal.SpeedTrack;

/** A speed track reduced to columns of a picture: lowest and highest speed in each, so that no blip is lost. */
final class Columns {
    private final double fromSeconds;
    private final double stepSeconds;
    private final double[] low;
    private final double[] high;

    private Columns(double fromSeconds, double stepSeconds, int count) {
        this.fromSeconds = fromSeconds;
        this.stepSeconds = stepSeconds;
        this.low = new double[count];
        this.high = new double[count];
        Arrays.fill(low, Double.POSITIVE_INFINITY);
    }

    static Columns of(SpeedTrack track, int count) {
        double from = track.fromSeconds(0);
        double to = track.toSeconds(track.size() - 1);
        Columns columns = new Columns(from, (to - from) / count, count);
        for (int i = 0; i < track.size(); i++) {
            int c = (int) Math.min(count - 1.0, (track.timeSeconds(i) - from) / columns.stepSeconds);
            columns.low[c] = Math.min(columns.low[c], track.speedRpm(i));
            columns.high[c] = Math.max(columns.high[c], track.speedRpm(i));
        }
        return columns;
    }

    int count() {
        return low.length;
    }

    boolean filled(int column) {
        return high[column] > 0;
    }

    double low(int column) {
        return low[column];
    }

    double high(int column) {
        return high[column];
    }

    double timeSeconds(int column) {
        return fromSeconds + (column + 0.5) * stepSeconds;
    }
}
