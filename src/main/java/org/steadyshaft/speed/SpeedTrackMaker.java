package org.steadyshaft.speed;

import java.util.Optional;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Tachometer;

/**
 * Turns cycles into a speed track: the speed over a cycle is the angle of its pole pair by its length. Where a pole
 * pattern is known, a segment is laid against it in the position that leaves the least roughness from cycle to cycle
 * (behind a gap nobody knows how many cycles were lost).
 */
public final class SpeedTrackMaker {
    private final Tachometer tachometer;

    public SpeedTrackMaker(Tachometer tachometer) {
        this.tachometer = tachometer;
    }

    public SpeedTrack make(CycleTimes cycles, Optional<PolePattern> pattern) {
        double[] pitch = pattern.map(this::pitches).orElse(new double[] {1});
        DoubleSeries.Builder speedRpm = new DoubleSeries.Builder(cycles.cycles());
        for (int segment = 0; segment < cycles.segments(); segment++) {
            double[] lengthSeconds = lengthsSeconds(cycles, segment);
            int position = pitch.length == 1 ? 0 : bestShift(lengthSeconds, pitch);
            for (double length : lengthSeconds) {
                speedRpm.add(pitch[position] * tachometer.rpm(1 / length));
                position = position + 1 < pitch.length ? position + 1 : 0;
            }
        }
        return new SpeedTrack(cycles, speedRpm.build());
    }

    private double[] pitches(PolePattern pattern) {
        double[] pitch = new double[tachometer.polePairs()];
        for (int position = 0; position < pitch.length; position++) {
            pitch[position] = pattern.pitch(position);
        }
        return pitch;
    }

    private static double[] lengthsSeconds(CycleTimes cycles, int segment) {
        int first = cycles.firstOf(segment);
        double[] length = new double[cycles.cyclesOf(segment)];
        for (int i = 0; i < length.length; i++) {
            length[i] = cycles.timeSeconds(first + i + 1) - cycles.timeSeconds(first + i);
        }
        return length;
    }

    private static int bestShift(double[] lengthSeconds, double[] pitch) {
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int shift = 0; shift < pitch.length; shift++) {
            double roughness = roughness(lengthSeconds, pitch, shift);
            if (roughness < least) {
                least = roughness;
                best = shift;
            }
        }
        return best;
    }

    /** Sum of the absolute relative changes from cycle to cycle. */
    private static double roughness(double[] lengthSeconds, double[] pitch, int shift) {
        double sum = 0;
        double before = lengthSeconds[0] / pitch[shift];
        int position = shift;
        for (int i = 1; i < lengthSeconds.length; i++) {
            position = position + 1 < pitch.length ? position + 1 : 0;
            double now = lengthSeconds[i] / pitch[position];
            sum += Math.abs(now / before - 1);
            before = now;
        }
        return sum;
    }
}
