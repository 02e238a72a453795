package org.steadyshaft.report;

import java.util.function.IntToDoubleFunction;
import org.jfree.data.xy.XYSeries;

/**
 * A row of points as a line that a screen can show: of every group of neighbours the lowest and the highest stay, in their
 * order, so that no needle is lost. Points of nothing (NaN) break the line and may not be thinned.
 */
final class Thinned {
    private final int groups;

    /** @param groups as many groups at most; about as many as the picture is wide in points of the screen */
    Thinned(int groups) {
        if (groups < 1) {
            throw new IllegalArgumentException(groups + " groups; expected one or more");
        }
        this.groups = groups;
    }

    /** The line through {@code count} points, of which {@code 2 * groups} stay at most. */
    XYSeries line(String name, int count, IntToDoubleFunction x, IntToDoubleFunction y) {
        XYSeries line = new XYSeries(name, false, true);
        if (count <= 2 * groups) {
            for (int i = 0; i < count; i++) {
                line.add(x.applyAsDouble(i), y.applyAsDouble(i), false);
            }
            return line;
        }
        for (int g = 0; g < groups; g++) {
            int from = (int) ((long) count * g / groups);
            int end = (int) ((long) count * (g + 1) / groups);
            int low = from;
            int high = from;
            for (int i = from + 1; i < end; i++) {
                low = y.applyAsDouble(i) < y.applyAsDouble(low) ? i : low;
                high = y.applyAsDouble(i) > y.applyAsDouble(high) ? i : high;
            }
            line.add(x.applyAsDouble(Math.min(low, high)), y.applyAsDouble(Math.min(low, high)), false);
            line.add(x.applyAsDouble(Math.max(low, high)), y.applyAsDouble(Math.max(low, high)), false);
        }
        return line;
    }

    /** The line through the highest point of every group: for a spectrum, whose needles count and whose floor does not. */
    XYSeries peaks(String name, int count, IntToDoubleFunction x, IntToDoubleFunction y) {
        XYSeries line = new XYSeries(name, false, true);
        int kept = Math.min(groups, count);
        for (int g = 0; g < kept; g++) {
            int best = (int) ((long) count * g / kept);
            for (int i = best + 1; i < (long) count * (g + 1) / kept; i++) {
                best = y.applyAsDouble(i) > y.applyAsDouble(best) ? i : best;
            }
            line.add(x.applyAsDouble(best), y.applyAsDouble(best), false);
        }
        return line;
    }
}
