package org.steadyshaft.stability;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/** Speed tracks of known speeds, without a recording. */
public final class MadeTrack {
    private MadeTrack() {}

    /** A cycle for each speed, as long as the speed asks for. */
    public static SpeedTrack ofSpeeds(Tachometer tacho, double... speedRpm) {
        CycleTimes.Builder times = new CycleTimes.Builder().add(0);
        double seconds = 0;
        for (double rpm : speedRpm) {
            seconds += 1 / tacho.cycleHz(rpm);
            times.add(seconds);
        }
        return new SpeedTrack(times.build(), DoubleSeries.of(speedRpm));
    }

    /** Cycles between crossings, each with the speed that its length tells. */
    public static SpeedTrack ofCrossings(Tachometer tacho, double... crossingSeconds) {
        CycleTimes.Builder times = new CycleTimes.Builder();
        DoubleSeries.Builder speeds = new DoubleSeries.Builder();
        for (int i = 0; i < crossingSeconds.length; i++) {
            times.add(crossingSeconds[i]);
            if (i > 0) {
                speeds.add(tacho.rpm(1 / (crossingSeconds[i] - crossingSeconds[i - 1])));
            }
        }
        return new SpeedTrack(times.build(), speeds.build());
    }

    /** Cycles of a speed that changes with time: each as long as the speed in its middle asks for, found in three rounds. */
    public static SpeedTrack ofSpeed(Tachometer tacho, double seconds, DoubleUnaryOperator rpmAtSeconds) {
        DoubleSeries.Builder speeds = new DoubleSeries.Builder();
        double from = 0;
        while (from < seconds) {
            double rpm = rpmAtSeconds.applyAsDouble(from);
            for (int round = 0; round < 3; round++) {
                rpm = rpmAtSeconds.applyAsDouble(from + 0.5 / tacho.cycleHz(rpm));
            }
            speeds.add(rpm);
            from += 1 / tacho.cycleHz(rpm);
        }
        return ofSpeeds(tacho, speeds.build().toArray());
    }

    /** All of a track as one steady stretch. */
    public static List<Stretch> whole(SpeedTrack track) {
        return List.of(new Stretch(track.fromSeconds(0), track.toSeconds(track.size() - 1)));
    }
}
