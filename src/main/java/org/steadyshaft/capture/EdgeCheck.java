package org.steadyshaft.capture;

/** Tells while rows stream by whether they are a list of edges: two levels only, and one changes in nearly every row. */
final class EdgeCheck {
    private static final double CHANGING_SHARE = 0.95;
    private static final int FEWEST_ROWS = 8;

    private final TextLayout layout;
    private final double[] level;
    private long rows;
    private long changing;
    private boolean twoLevels = true;

    EdgeCheck(TextLayout layout) {
        this.layout = layout;
        this.level = new double[layout.channels().size()];
    }

    void add(Rows row) {
        boolean changes = false;
        for (int c = 0; c < level.length; c++) {
            double now = row.value(layout.channels().get(c).column());
            twoLevels &= now == 0 || now == 1;
            changes |= rows > 0 && now != level[c];
            level[c] = now;
        }
        changing += changes ? 1 : 0;
        rows++;
    }

    boolean isEdges() {
        return twoLevels
                && rows >= FEWEST_ROWS
                && layout.timeColumn().isPresent()
                && changing > CHANGING_SHARE * (rows - 1);
    }
}
