package org.steadyshaft.capture;

/** What a recorder's converter makes of a level: whole steps of 16 or 24 bits, clipped beyond full scale 1. */
final class PcmSteps {
    private PcmSteps() {}

    /** @throws IllegalArgumentException unless there are 16 or 24 bits */
    static void check(int bits) {
        if (bits != 16 && bits != 24) {
            throw new IllegalArgumentException(bits + " bits; expected 16 or 24");
        }
    }

    /** The step nearest to a level. */
    static int of(double level, int bits) {
        double scale = Math.scalb(1.0, bits - 1);
        return (int) Math.max(-scale, Math.min(scale - 1, Math.round(level * scale)));
    }
}
