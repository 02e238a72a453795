package org.steadyshaft.blip;

import java.util.List;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;

/**
 * The speed as it would have been without the blips: each one's fitted rise and tail is taken off every cycle, as a mean over the cycle.
 * Level, steady running and what is measured on it are read from this.
 */
public final class CleanTrack {
    /** After so many time constants a tail is nothing. */
    private static final double MOST_CONSTANTS = 8;

    private CleanTrack() {}

    /** @param kinks in per cent of the speed just before each */
    public static SpeedTrack of(SpeedTrack track, List<Kink> kinks) {
        if (kinks.isEmpty()) {
            return track;
        }
        double[] share = new double[track.size()];
        for (Kink kink : kinks) {
            double end = kink.startSeconds() + kink.riseSeconds() + MOST_CONSTANTS * kink.returnSeconds();
            int from = Math.max(0, track.firstNotBefore(kink.startSeconds()) - 2);
            for (int i = from; i < track.size() && track.fromSeconds(i) < end; i++) {
                double added = kink.bendAt(track.toSeconds(i)) - kink.bendAt(track.fromSeconds(i));
                share[i] += kink.percent() / 100 * added / track.durationSeconds(i);
            }
        }
        DoubleSeries.Builder clean = new DoubleSeries.Builder();
        for (int i = 0; i < share.length; i++) {
            clean.add(track.speedRpm(i) / Math.max(0.1, 1 + share[i]));
        }
        return track.withSpeeds(clean.build());
    }
}
