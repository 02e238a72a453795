package org.steadyshaft.ripple;

import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.voltage.LineMotion;

/**
 * The cycles' speed without the fast lines that the waveform showed: what a line adds to a cycle's mean speed is known, also where it
 * would fold. What is left holds slow swings and noise.
 */
final class CalmTrack {
    private CalmTrack() {}

    /** @param meanRpm the mean speed of which the lines are shares */
    static SpeedTrack of(SpeedTrack track, LineMotion motion, double meanRpm) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        DoubleSeries.Builder speed = new DoubleSeries.Builder();
        for (int i = 0; i < track.size(); i++) {
            if (!track.follows(i)) {
                times.breakHere();
                times.add(track.fromSeconds(i));
            }
            times.add(track.toSeconds(i));
            double lines = motion.meanShare(track.fromSeconds(i), track.toSeconds(i));
            speed.add(track.speedRpm(i) - meanRpm * lines);
        }
        return new SpeedTrack(times.build(), speed.build());
    }
}
