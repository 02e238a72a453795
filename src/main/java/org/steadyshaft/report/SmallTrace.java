package org.steadyshaft.report;

import java.util.Locale;
import org.steadyshaft.signal.SpeedTrack;

/** A speed track as a small path, 120 by 28, for a table's cell: for each column its lowest and highest speed. */
final class SmallTrace {
    static final int WIDTH = 120;
    static final int HEIGHT = 28;

    private final SpeedTrack track;

    SmallTrace(SpeedTrack track) {
        this.track = track;
    }

    /** SVG path data; the scale runs from the lowest to the highest speed, but spans 4 % of the highest at least. */
    String path() {
        Columns columns = Columns.of(track, WIDTH);
        double low = columns.lowest();
        double high = columns.highest();
        double span = Math.max(high - low, 0.04 * high);
        double bottom = 0.5 * (high + low) - 0.5 * span;
        double scale = (double) WIDTH / columns.count();
        StringBuilder path = new StringBuilder();
        for (int c = 0; c < columns.count(); c++) {
            if (columns.filled(c)) {
                path.append(String.format(
                        Locale.ROOT,
                        "%s%.1f %.1fL%.1f %.1f",
                        columns.afterGap(c) ? "M" : "L",
                        c * scale,
                        HEIGHT - HEIGHT * (columns.low(c) - bottom) / span,
                        c * scale,
                        HEIGHT - HEIGHT * (columns.high(c) - bottom) / span));
            }
        }
        return path.toString();
    }
}
