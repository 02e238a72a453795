package org.steadyshaft.condition;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.FundamentalTrack;

/**
 * Where a shaft stands still, mains pick-up is the strongest tone left and looks like a rotation. Rows of frames that lie at the
 * mains frequency or twice that, keep it as no motor does, and reach it by a jump are taken out of the track; not those that are far
 * stronger than what stands there while the shaft turns elsewhere, nor those as strong as a tacho is there.
 */
public final class StandstillHum {
    /** Fewer frames may be a motor that passes by. */
    private static final int FEWEST_FRAMES = 3;

    /** A shaft does not change its speed by this share from one frame to the next beside a row that keeps it exactly. */
    private static final double JUMP = 0.15;

    /** Rows that hold more than this share of the rotating frames decide the mean of the mains line themselves. */
    private static final double MOST_OF_THE_TRACK = 0.5;

    private static final double ALIKE = 0.2;

    /** So far from the mains, as a share, a frame adds to the mains line of the recording. */
    private static final double BESIDE = 0.015;

    /** Pick-up swings; what exceeds by this factor that of the time when the shaft turns elsewhere is no pick-up. Our own figure. */
    private static final double FAR_ABOVE = 2;

    /** A tacho's level follows its speed within this factor; where nothing tells of the pick-up by itself. Our own figure. */
    private static final double AS_A_TACHO = 1.6;

    private static final int FEWEST_ELSEWHERE = 3;

    private final double mainsHz;
    private final HumMeter hum;

    /** @param hum the pick-up of the same recording */
    public StandstillHum(HumMeter hum) {
        this.mainsHz = hum.mainsHz();
        this.hum = hum;
    }

    /** The track without frames that show the mains; a track that shows nothing else is left as it is. */
    public FundamentalTrack without(FundamentalTrack track) {
        OptionalDouble humAmplitude = hum.amplitude();
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
                    && (standsAlone(track, from, end) || isTheHum(track, from, end, humAmplitude))
                    && !isTheTacho(track, from, end, order)) {
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

    /** Whether the row is stronger than the pick-up that stands there at other times, or where that is not known as strong as the tacho. */
    private boolean isTheTacho(FundamentalTrack track, int from, int end, int order) {
        double level = meanAmplitude(track, from, end);
        OptionalDouble pickUp = hum.amplitudeAway(track, order);
        if (pickUp.isPresent()) {
            return level > FAR_ABOVE * pickUp.getAsDouble();
        }
        double[] perHz = IntStream.range(0, track.frames())
                .filter(i -> track.rotates(i) && !isBesideMains(track, i))
                .mapToDouble(i -> track.amplitude(i) / track.frequencyHz(i))
                .toArray();
        if (perHz.length < FEWEST_ELSEWHERE) {
            return false;
        }
        double ratio = level / (Robust.median(perHz) * order * mainsHz);
        return ratio < AS_A_TACHO && ratio > 1 / AS_A_TACHO;
    }

    private static double meanAmplitude(FundamentalTrack track, int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += track.amplitude(i);
        }
        return sum / (end - from);
    }

    private boolean isBesideMains(FundamentalTrack track, int frame) {
        double order = track.frequencyHz(frame) / mainsHz;
        double nearest = Math.max(1, Math.min(2, Math.rint(order)));
        return Math.abs(order / nearest - 1) < BESIDE;
    }

    /** Whether a short row is just as strong as the mains line is all the time. */
    private boolean isTheHum(FundamentalTrack track, int from, int end, OptionalDouble humAmplitude) {
        if (humAmplitude.isEmpty() || besideMains(track) > MOST_OF_THE_TRACK * track.rotatingFrames()) {
            return false;
        }
        double ratio = meanAmplitude(track, from, end) / humAmplitude.getAsDouble();
        return track.rotatingFrames() > end - from && Math.abs(ratio - 1) < ALIKE;
    }

    /** Frames beside the mains: where most are, the mains line is made of them and tells nothing. */
    private long besideMains(FundamentalTrack track) {
        return IntStream.range(0, track.frames())
                .filter(i -> track.rotates(i) && isBesideMains(track, i))
                .count();
    }

    private static boolean isJump(FundamentalTrack track, int outside, int inside) {
        return Math.abs(track.frequencyHz(outside) / track.frequencyHz(inside) - 1) > JUMP;
    }
}
