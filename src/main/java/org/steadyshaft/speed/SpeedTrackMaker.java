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
        DoubleSeries.Builder speedRpm = new DoubleSeries.Builder();
        for (int segment = 0; segment < cycles.segments(); segment++) {
            int first = cycles.firstOf(segment);
            int shift = pattern.isPresent() ? bestShift(cycles, segment, pattern.get()) : 0;
            for (int i = 0; i < cycles.cyclesOf(segment); i++) {
                double evenRpm = tachometer.rpm(1 / lengthSeconds(cycles, first + i));
                double pitch = pattern.isPresent() ? pattern.get().pitch((i + shift) % tachometer.polePairs()) : 1;
                speedRpm.add(pitch * evenRpm);
            }
        }
        return new SpeedTrack(cycles, speedRpm.build());
    }

    private int bestShift(CycleTimes cycles, int segment, PolePattern pattern) {
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int shift = 0; shift < tachometer.polePairs(); shift++) {
            double roughness = roughness(cycles, segment, pattern, shift);
            if (roughness < least) {
                least = roughness;
                best = shift;
            }
        }
        return best;
    }

    /** Mean absolute relative change from cycle to cycle. */
    private double roughness(CycleTimes cycles, int segment, PolePattern pattern, int shift) {
        int poles = tachometer.polePairs();
        int first = cycles.firstOf(segment);
        double sum = 0;
        double before = lengthSeconds(cycles, first) / pattern.pitch(shift % poles);
        for (int i = 1; i < cycles.cyclesOf(segment); i++) {
            double now = lengthSeconds(cycles, first + i) / pattern.pitch((i + shift) % poles);
            sum += Math.abs(now / before - 1);
            before = now;
        }
        return sum / Math.max(1, cycles.cyclesOf(segment) - 1);
    }

    private static double lengthSeconds(CycleTimes cycles, int crossing) {
        return cycles.timeSeconds(crossing + 1) - cycles.timeSeconds(crossing);
    }
}
