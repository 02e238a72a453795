package org.steadyshaft.voltage;

/**
 * By how much the mains' phase runs ahead of a steady frequency over a piece, on straight lines between blocks. Unchanging.
 */
final class MainsPhase {
    static final MainsPhase STEADY = new MainsPhase(0, 1, new double[1]);

    private final double firstSeconds;
    private final double blockSeconds;
    private final double[] aheadRad;

    /**
     * @param firstSeconds time of the first value
     * @param blockSeconds from one value to the next
     * @param aheadRad phase of the mains' first multiple [rad]
     */
    MainsPhase(double firstSeconds, double blockSeconds, double[] aheadRad) {
        this.firstSeconds = firstSeconds;
        this.blockSeconds = blockSeconds;
        this.aheadRad = aheadRad.clone();
    }

    /** Phase [rad] by which the mains is ahead at a time; beyond the ends the last change goes on. */
    double ahead(double seconds) {
        if (aheadRad.length == 1) {
            return aheadRad[0];
        }
        double place = (seconds - firstSeconds) / blockSeconds;
        int at = (int) Math.max(0, Math.min(aheadRad.length - 2.0, Math.floor(place)));
        return aheadRad[at] + (place - at) * (aheadRad[at + 1] - aheadRad[at]);
    }

    /** Phase [rad] of a multiple of the mains, or of a line that is none (multiple 0), at a time. */
    double phase(double hz, int multiple, double seconds) {
        return Columns.phase(hz, seconds) + (multiple == 0 ? 0 : multiple * ahead(seconds));
    }
}
