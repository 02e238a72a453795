package org.steadyshaft.condition;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.FundamentalTrack;

/**
 * Where a shaft stands still, mains pick-up is the strongest tone left and looks like a rotation. Rows of frames that lie at the
 * mains frequency or twice that, keep it as no motor does, and reach it by a jump are taken out of the track.
 */
public final class StandstillHum {
    /** Fewer frames may be a motor that passes by. */
    private static final int FEWEST_FRAMES = 3;

    /** A shaft does not change its speed by this share from one frame to the next beside a row that keeps it exactly. */
    private static final double JUMP = 0.15;

    /** Rows that hold more than this share of the rotating frames decide the mean of the mains line themselves. */
    private static final double MOST_OF_THE_TRACK = 0.5;

    private static final double ALIKE = 0.2;

    private final double mainsHz;

    public StandstillHum(double mainsHz) {
        this.mainsHz = mainsHz;
    }

    /**
     * The track without frames that show the mains; a track that shows nothing else is left as it is.
     *
     * @param humAmplitude amplitude of the mains line over the whole recording, if it stands clear
     */
    public FundamentalTrack without(FundamentalTrack track, OptionalDouble humAmplitude) {
        boolean[] mains = new boolean[track.frames()];
        boolean found = false;
        for (int from = 0; from < track.frames(); from++) {
            int order = orderOf(track, from);
            int end = from + 1;
            while (order > 0 && end < track.frames() && orderOf(track, end) == order) {
                end++;
            }
            if (order > 0
                    && end - from >= FEWEST_FRAMES
                    && (standsAlone(track, from, end) || isTheHum(track, from, end, humAmplitude))) {
                Arrays.fill(mains, from, end, true);
                found = true;
            }
            from = end - 1;
        }
        return found ? track.resting(i -> mains[i]) : track;
    }

    /** 1 or 2 for a frame at that multiple of the mains frequency, 0 for any other. */
    private int orderOf(FundamentalTrack track, int frame) {
        for (int order = 1; order <= 2; order++) {
            if (Math.abs(track.frequencyHz(frame) / (order * mainsHz) - 1) < Mains.REACH) {
                return order;
            }
        }
        return 0;
    }

    /** Whether no frame beside the row comes near its frequency, and one at least turns at another. */
    private static boolean standsAlone(FundamentalTrack track, int from, int end) {
        boolean before = from == 0 || isJump(track, from - 1, from);
        boolean after = end == track.frames() || isJump(track, end, end - 1);
        boolean all = from == 0 && end == track.frames();
        boolean turnsElsewhere = track.rotatingFrames() > end - from;
        return before && after && !all && turnsElsewhere;
    }

    /** Whether a short row is just as strong as the mains line is all the time. */
    private boolean isTheHum(FundamentalTrack track, int from, int end, OptionalDouble humAmplitude) {
        if (humAmplitude.isEmpty() || alike(track, orderOf(track, from)) > MOST_OF_THE_TRACK * track.rotatingFrames()) {
            return false;
        }
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += track.amplitude(i);
        }
        double ratio = sum / (end - from) / humAmplitude.getAsDouble();
        return track.rotatingFrames() > end - from && Math.abs(ratio - 1) < ALIKE;
    }

    /** Frames at a multiple of the mains: where most are, the mains line is made of them and tells nothing. */
    private int alike(FundamentalTrack track, int order) {
        int count = 0;
        for (int i = 0; i < track.frames(); i++) {
            count += orderOf(track, i) == order ? 1 : 0;
        }
        return count;
    }

    private static boolean isJump(FundamentalTrack track, int outside, int inside) {
        return Math.abs(track.frequencyHz(outside) / track.frequencyHz(inside) - 1) > JUMP;
    }
}
