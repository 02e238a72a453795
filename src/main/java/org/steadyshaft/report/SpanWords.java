package org.steadyshaft.report;

import org.steadyshaft.signal.SpeedTrack;

/** Says over what a mean speed was taken, and what the whole recording gives where that is something else. */
final class SpanWords {
    /** A part this small of a recording goes without a word: three cycles at each end are not counted. */
    private static final double LEFT_OUT = 0.02;

    private static final double SECONDS_A_MINUTE = 60;

    private SpanWords() {}

    /**
     * @param track at least one cycle
     * @param durationSeconds length of the recording
     */
    static String counted(SpeedTrack track, double durationSeconds) {
        double counted = 0;
        double turns = 0;
        for (int i = 0; i < track.size(); i++) {
            counted += track.durationSeconds(i);
            turns += track.durationSeconds(i) * track.speedRpm(i) / SECONDS_A_MINUTE;
        }
        String words = track.size() + " in " + Numbers.fixed(counted, 2) + " s, between "
                + Numbers.fixed(track.fromSeconds(0), 2) + " s and "
                + Numbers.fixed(track.toSeconds(track.size() - 1), 2) + " s; the mean is that of this time";
        if (counted > (1 - LEFT_OUT) * durationSeconds) {
            return words;
        }
        return words + ". The whole recording of " + Numbers.fixed(durationSeconds, 2) + " s shows "
                + Numbers.fixed(turns, 1) + " turns, "
                + Numbers.fixed(SECONDS_A_MINUTE * turns / durationSeconds, 1)
                + " rpm if nothing turned in the rest";
    }
}
