package org.steadyshaft.condition;

import org.steadyshaft.signal.FundamentalTrack;

/**
 * Tones that jump from one held pitch to another, as notes do. A shaft has inertia and passes all speeds between, and a tacho's level is
 * proportional to its frequency (Faraday's law).
 */
final class PitchJumps {
    /** Frames of one held pitch differ by less. */
    private static final double HELD = 0.015;

    private static final int FEWEST_HELD = 3;

    /** From one pitch to the other it takes so many frames at most, none of them at a speed between. */
    private static final int MOST_BETWEEN = 2;

    /** A jump is a change of at least this share; whole ratios may be a harmonic taken for the fundamental. */
    private static final double LEAST_JUMP = 0.1;

    private static final int MOST_RATIO = 3;

    /** A tacho's level follows its frequency; a jump whose level misses it by this part of the change (in logarithms) is none. Our own figure. */
    private static final double MISSED = 0.5;

    private PitchJumps() {}

    /** How many times the tone jumps as no tacho does. */
    static int count(FundamentalTrack track) {
        int jumps = 0;
        int held = -1;
        int from = 0;
        while (from < track.frames()) {
            int end = from;
            while (end < track.frames() && track.rotates(end) && (end == from || isOne(track, end - 1, end))) {
                end++;
            }
            if (end - from >= FEWEST_HELD) {
                boolean near = held >= 0 && from - held <= MOST_BETWEEN + 1;
                jumps += near && isJump(track, held, from) && !isBetween(track, held, from) ? 1 : 0;
                held = end - 1;
            }
            from = Math.max(end, from + 1);
        }
        return jumps;
    }

    private static boolean isOne(FundamentalTrack track, int a, int b) {
        return Math.abs(track.frequencyHz(b) / track.frequencyHz(a) - 1) < HELD;
    }

    private static boolean isJump(FundamentalTrack track, int a, int b) {
        double ratio = track.frequencyHz(b) / track.frequencyHz(a);
        double larger = Math.max(ratio, 1 / ratio);
        double whole = Math.rint(larger);
        boolean harmonic = whole > 1 && whole <= MOST_RATIO && Math.abs(larger / whole - 1) < HELD;
        double change = Math.log(ratio);
        // the frames at the jump hold a part of either
        double level = Math.log(track.amplitude(b + 1) / track.amplitude(a - 1));
        return larger > 1 + LEAST_JUMP && !harmonic && Math.abs(level - change) > MISSED * Math.abs(change);
    }

    /** Whether a frame shows a speed between. */
    private static boolean isBetween(FundamentalTrack track, int a, int b) {
        double low = Math.min(track.frequencyHz(a), track.frequencyHz(b)) * (1 + 2 * HELD);
        double high = Math.max(track.frequencyHz(a), track.frequencyHz(b)) * (1 - 2 * HELD);
        for (int i = a + 1; i < b; i++) {
            if (track.rotates(i) && track.frequencyHz(i) > low && track.frequencyHz(i) < high) {
                return true;
            }
        }
        return false;
    }
}
