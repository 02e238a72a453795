package org.steadyshaft.speed;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.RobustConstants;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/** States the mean speed by crossings and by spectra, with its uncertainty. */
public final class MeanSpeedMeter {
    /** A third difference of white jitter has the coefficients -1, 3, -3, 1, so 20 times its variance. */
    private static final double THIRD_DIFFERENCE_GAIN = 20;

    /** A tolerance taken as evenly spread has the standard uncertainty a / sqrt(3) (JCGM 100:2008 4.3.7, from memory). */
    private static final double EVENLY_SPREAD = Math.sqrt(3);

    /** Cycles in one estimate of the jitter; the median over the estimates is taken, so memory stays small. */
    private static final int JITTER_RUN = 1 << 16;

    private final Tachometer tachometer;
    private final double clockTolerancePpm;

    /** @param clockTolerancePpm how far the recorder's clock may be off, in parts per million */
    public MeanSpeedMeter(Tachometer tachometer, double clockTolerancePpm) {
        if (!(clockTolerancePpm >= 0)) {
            throw new IllegalArgumentException("clock tolerance " + clockTolerancePpm + " ppm");
        }
        this.tachometer = tachometer;
        this.clockTolerancePpm = clockTolerancePpm;
    }

    /**
     * @param cycles one cycle at least
     * @param track the speeds of these cycles
     * @param spectral the track of the short-time spectra
     */
    public MeanSpeed measure(CycleTimes cycles, SpeedTrack track, FundamentalTrack spectral) {
        double weighted = 0;
        double seconds = 0;
        Moments speeds = new Moments();
        for (int i = 0; i < track.size(); i++) {
            weighted += track.durationSeconds(i) * track.speedRpm(i);
            seconds += track.durationSeconds(i);
            speeds.add(track.speedRpm(i));
        }
        double meanRpm = weighted / seconds;
        double endErrorSeconds = jitterSeconds(track) * Math.sqrt(2.0 * cycles.segments());
        Moments spectralRpm = new Moments();
        Moments differencePercent = new Moments();
        compare(track, spectral, spectralRpm, differencePercent);
        boolean both = spectralRpm.count() > 0;
        return new MeanSpeed(
                meanRpm,
                track.size(),
                meanRpm * endErrorSeconds / seconds,
                meanRpm * clockTolerancePpm * 1e-6 / EVENLY_SPREAD,
                speeds.smallest(),
                speeds.largest(),
                both ? OptionalDouble.of(spectralRpm.mean()) : OptionalDouble.empty(),
                both ? OptionalDouble.of(differencePercent.mean()) : OptionalDouble.empty(),
                differencePercent.count() > 1
                        ? OptionalDouble.of(differencePercent.deviation() / Math.sqrt(differencePercent.count()))
                        : OptionalDouble.empty());
    }

    /** Jitter of one crossing [s]: a robust spread of the third differences of the crossing times, pattern removed. */
    private static double jitterSeconds(SpeedTrack track) {
        int runs = Math.max(1, track.size() / JITTER_RUN);
        double[] estimates = new double[runs];
        for (int run = 0; run < runs; run++) {
            int from = (int) ((long) track.size() * run / runs);
            int to = (int) ((long) track.size() * (run + 1) / runs);
            estimates[run] = jitterSeconds(track, from, to);
        }
        return Robust.median(estimates);
    }

    private static double jitterSeconds(SpeedTrack track, int from, int to) {
        double[] third = new double[Math.max(0, to - from)];
        int count = 0;
        for (int i = from + 1; i + 1 < to; i++) {
            if (track.follows(i) && track.follows(i + 1)) {
                // lengths as they would be at even poles and constant speed: second differences of these are third ones
                // of times
                double scale = track.durationSeconds(i) * track.speedRpm(i);
                third[count++] =
                        scale * (1 / track.speedRpm(i + 1) - 2 / track.speedRpm(i) + 1 / track.speedRpm(i - 1));
            }
        }
        if (count < 3) {
            return from < to ? 0.01 * track.durationSeconds(from) : 0;
        }
        double[] used = Arrays.copyOf(third, count);
        for (int i = 0; i < count; i++) {
            used[i] = Math.abs(used[i]);
        }
        return RobustConstants.MAD_TO_SIGMA * Robust.median(used) / Math.sqrt(THIRD_DIFFERENCE_GAIN);
    }

    private void compare(SpeedTrack track, FundamentalTrack spectral, Moments spectralRpm, Moments differencePercent) {
        for (int frame = 0; frame < spectral.frames(); frame++) {
            double half = 0.5 * spectral.frameSeconds();
            Stretch span = new Stretch(spectral.timeSeconds(frame) - half, spectral.timeSeconds(frame) + half);
            if (spectral.rotates(frame) && unbroken(track, span)) {
                double rpm = tachometer.rpm(spectral.frequencyHz(frame));
                spectralRpm.add(rpm);
                differencePercent.add(100 * (rpm / track.meanRpm(span) - 1));
            }
        }
    }

    private static boolean unbroken(SpeedTrack track, Stretch span) {
        int first = track.firstNotBefore(span.fromSeconds());
        int end = track.firstNotBefore(span.toSeconds());
        if (first == 0 || end >= track.size() || end - first < 2) {
            return false;
        }
        for (int i = first; i <= end; i++) {
            if (!track.follows(i)) {
                return false;
            }
        }
        return true;
    }
}
