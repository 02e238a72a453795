package org.steadyshaft.report;

import java.util.Arrays;
import org.steadyshaft.signal.SpeedTrack;

/** A speed track reduced to columns of a picture: lowest and highest speed in each, so that no blip is lost. */
final class Columns {
    private final double fromSeconds;
    private final double stepSeconds;
    private final double[] low;
    private final double[] high;
    private final boolean[] afterGap;

    private Columns(double fromSeconds, double stepSeconds, int count) {
        this.fromSeconds = fromSeconds;
        this.stepSeconds = stepSeconds;
        this.low = new double[count];
        this.high = new double[count];
        this.afterGap = new boolean[count];
        Arrays.fill(low, Double.POSITIVE_INFINITY);
    }

    /** @param most columns at most; a track of fewer cycles gets a column a cycle */
    static Columns of(SpeedTrack track, int most) {
        double from = track.fromSeconds(0);
        double to = track.toSeconds(track.size() - 1);
        int count = Math.max(1, Math.min(most, track.size()));
        Columns columns = new Columns(from, (to - from) / count, count);
        for (int i = 0; i < track.size(); i++) {
            int c = (int) Math.min(count - 1.0, (track.timeSeconds(i) - from) / columns.stepSeconds);
            columns.afterGap[c] |= !track.follows(i);
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

    /** Whether the track is broken in or before this column; so it is at the first. */
    boolean afterGap(int column) {
        return afterGap[column];
    }

    double low(int column) {
        return low[column];
    }

    double high(int column) {
        return high[column];
    }

    double stepSeconds() {
        return stepSeconds;
    }

    double timeSeconds(int column) {
        return fromSeconds + (column + 0.5) * stepSeconds;
    }
}
