package org.steadyshaft.report;

import java.util.Locale;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.signal.SpeedTrack;

/**
 * A speed track as a small path, 120 by 28, for a table's cell: for each column its lowest and highest speed. All have one scale in % of
 * their own means, so that they can be compared by eye; what leaves it lies at its edge.
 */
final class SmallTrace {
    static final int WIDTH = 120;
    static final int HEIGHT = 28;

    /** The height reaches so far to either side of the mean [%]: wide enough for the jumps and the hunting of a bad circuit. */
    static final double REACH_PERCENT = 10;

    private final SpeedTrack track;
    private final double meanRpm;

    SmallTrace(Rotation rotation) {
        this.track = rotation.track();
        this.meanRpm = rotation.speed().meanRpm();
    }

    /** SVG path data. */
    String path() {
        Columns columns = Columns.of(track, WIDTH);
        double scale = (double) WIDTH / columns.count();
        StringBuilder path = new StringBuilder();
        for (int c = 0; c < columns.count(); c++) {
            if (columns.filled(c)) {
                path.append(String.format(
                        Locale.ROOT,
                        "%s%.1f %.1fL%.1f %.1f",
                        columns.afterGap(c) ? "M" : "L",
                        c * scale,
                        place(columns.low(c)),
                        c * scale,
                        place(columns.high(c))));
            }
        }
        return path.toString();
    }

    private double place(double rpm) {
        double share = 100 * (rpm / meanRpm - 1) / REACH_PERCENT;
        return 0.5 * HEIGHT * (1 - Math.max(-1, Math.min(1, share)));
    }
}
