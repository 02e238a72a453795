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
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        for (int c = 0; c < columns.count(); c++) {
            low = columns.filled(c) ? Math.min(low, columns.low(c)) : low;
            high = columns.filled(c) ? Math.max(high, columns.high(c)) : high;
        }
        double span = Math.max(high - low, 0.04 * high);
        double bottom = 0.5 * (high + low) - 0.5 * span;
        StringBuilder path = new StringBuilder();
        boolean pen = false;
        for (int c = 0; c < columns.count(); c++) {
            if (!columns.filled(c)) {
                pen = false;
                continue;
            }
            path.append(String.format(
                    Locale.ROOT,
                    "%s%d %.1fL%d %.1f",
                    pen ? "L" : "M",
                    c,
                    HEIGHT - HEIGHT * (columns.low(c) - bottom) / span,
                    c,
                    HEIGHT - HEIGHT * (columns.high(c) - bottom) / span));
            pen = true;
        }
        return path.toString();
    }
}
