package org.steadyshaft.capture;

/** Tells while rows stream by whether they are a list of edges: two levels only (0 and 1, or two voltages), and one changes in nearly every row. */
final class EdgeCheck {
    private static final double CHANGING_SHARE = 0.95;
    private static final int FEWEST_ROWS = 8;

    private final TextLayout layout;
    private final double[] level;
    private long rows;
    private long changing;
    private boolean twoLevels = true;
    private double lower = Double.NaN;
    private double upper = Double.NaN;

    EdgeCheck(TextLayout layout) {
        this.layout = layout;
        this.level = new double[layout.channels().size()];
    }

    void add(Rows row) {
        if (row.isDrawn()) {
            return;
        }
        boolean changes = false;
        for (int c = 0; c < level.length; c++) {
            double now = row.value(layout.channels().get(c).column());
            lower = Double.isNaN(lower) ? now : Math.min(lower, now);
            upper = Double.isNaN(upper) ? now : Math.max(upper, now);
            twoLevels &= now == lower || now == upper;
            twoLevels &= Double.isNaN(level[c]) || rows == 0 || level[c] == lower || level[c] == upper;
            changes |= rows > 0 && now != level[c];
            level[c] = now;
        }
        changing += changes ? 1 : 0;
        rows++;
    }

    /** Half way between the two levels. */
    double middle() {
        return 0.5 * (lower + upper);
    }

    boolean isEdges() {
        return twoLevels
                && upper > lower
                && rows >= FEWEST_ROWS
                && layout.timeColumn().isPresent()
                && changing > CHANGING_SHARE * (rows - 1);
    }
}
