package org.steadyshaft.speed;

import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/** States the mean speed by crossings and by spectra, with its uncertainty. */
public final class MeanSpeedMeter {
    /**
     * The filter's edge and the cubic between samples shift the first and the last crossing by up to this many cycles. Measured three
     * cycles inside, where the row begins and ends: 0.4 to 1.2e-4 for a plain tone, more with ripple and harmonics; the figure is such
     * that 500 of those are covered as often as the uncertainty says (UncertaintyTruthTest).
     */
    private static final double END_CYCLES = 4e-4;

    /** The sine fit weighs the middle of a recording more than its ends; where that matters the mean is that of the crossings. */
    private static final double AGREEING = 4;

    /** A frame is looked at in so many parts; it swings where the fastest is so much faster than the slowest. Our own figures. */
    private static final int SWING_PARTS = 8;

    private static final double SWINGING_PERCENT = 1;

    /** Of such a swing the mean of the lines taken is off by this share, one standard deviation. */
    private static final double SWING_SHARE = 0.25;

    private final Tachometer tachometer;
    private final double clockTolerancePpm;
    private final double sampleRateHz;
    private final double step;

    /**
     * @param clockTolerancePpm how far the recorder's clock may be off, in parts per million
     * @param sampleRateHz of the recording
     * @param step distance of neighbouring sample values; 0 if there is none
     */
    public MeanSpeedMeter(Tachometer tachometer, double clockTolerancePpm, double sampleRateHz, double step) {
        if (!(clockTolerancePpm >= 0) || !(sampleRateHz > 0) || !(step >= 0)) {
            throw new IllegalArgumentException(
                    "clock " + clockTolerancePpm + " ppm, rate " + sampleRateHz + " Hz, step " + step);
        }
        this.tachometer = tachometer;
        this.clockTolerancePpm = clockTolerancePpm;
        this.sampleRateHz = sampleRateHz;
        this.step = step;
    }

    /**
     * @param cycles one cycle at least
     * @param track the speeds of these cycles
     * @param spectral the track of the short-time spectra
     * @param sine the sine fit, where the speed was constant
     */
    public MeanSpeed measure(CycleTimes cycles, SpeedTrack track, FundamentalTrack spectral, Optional<SineMean> sine) {
        double weighted = 0;
        double seconds = 0;
        Moments speeds = new Moments();
        for (int i = 0; i < track.size(); i++) {
            weighted += track.durationSeconds(i) * track.speedRpm(i);
            seconds += track.durationSeconds(i);
            speeds.add(track.speedRpm(i));
        }
        double crossingRpm = weighted / seconds;
        Uncertainty ofCrossings = ofTheCrossings(cycles, track, spectral, crossingRpm, seconds);
        OptionalDouble sineRpm = OptionalDouble.empty();
        Uncertainty uncertainty = ofCrossings;
        if (sine.isPresent()) {
            double rpm = tachometer.rpm(sine.get().frequencyHz());
            Uncertainty ofSine = ofTheSine(sine.get(), spectral, rpm);
            double both = Math.hypot(ofSine.dataRpm(), ofCrossings.dataRpm());
            if (Math.abs(rpm - crossingRpm) < AGREEING * both) {
                sineRpm = OptionalDouble.of(rpm);
                uncertainty = ofSine;
            }
        }
        Moments spectralRpm = new Moments();
        Moments differencePercent = new Moments();
        Moments swings = new Moments();
        compare(track, spectral, spectralRpm, differencePercent, swings);
        boolean framed = spectralRpm.count() > 0;
        return new MeanSpeed(
                sineRpm.orElse(crossingRpm),
                crossingRpm,
                track.size(),
                uncertainty,
                speeds.smallest(),
                speeds.largest(),
                sineRpm,
                framed ? OptionalDouble.of(spectralRpm.mean()) : OptionalDouble.empty(),
                framed ? OptionalDouble.of(differencePercent.mean()) : OptionalDouble.empty(),
                differencePercent.count() > 1
                        ? OptionalDouble.of(differencePercent.deviation() / Math.sqrt(differencePercent.count())
                                + SWING_SHARE * swings.mean())
                        : OptionalDouble.empty());
    }

    private Uncertainty ofTheCrossings(
            CycleTimes cycles, SpeedTrack track, FundamentalTrack spectral, double meanRpm, double seconds) {
        double ends = Math.sqrt(2.0 * cycles.segments());
        double hz = track.size() / seconds;
        double steps = CrossingNoise.jitterSeconds(stepRms(), amplitude(spectral), hz, sampleRateHz);
        double jitter = Math.max(steps, CrossingJitter.seconds(track));
        return new Uncertainty(
                meanRpm * ends * jitter / seconds,
                meanRpm * ends * steps / seconds,
                meanRpm * ends * placing(track, spectral) / hz / seconds,
                clockRpm(meanRpm));
    }

    /**
     * Standard uncertainty of a crossing at an end, in cycles, for want of a perfect filter: half the tolerance of the place itself,
     * and what fast ripple does through the second harmonic, whose sidebands reach into the band (derived: a ripple of r at 0.3
     * of the tacho frequency beside a second harmonic of share h moves a crossing by 0.5 h r cycles or less).
     */
    private static double placing(SpeedTrack track, FundamentalTrack spectral) {
        double squares = 0;
        int count = 0;
        double sum = 0;
        for (int i = 1; i < track.size(); i++) {
            if (track.follows(i)) {
                double change = track.speedRpm(i) - track.speedRpm(i - 1);
                squares += change * change;
                sum += track.speedRpm(i);
                count++;
            }
        }
        double fastRipple = count > 0 ? Math.sqrt(0.5 * squares / count) / (sum / count) : 0;
        double second = Robust.median(spectral.rotating(spectral::second)) / amplitude(spectral);
        return Math.hypot(END_CYCLES / Math.sqrt(3), 0.5 * second * fastRipple);
    }

    /** Quantisation as white noise of q / sqrt(12) with the bound of Rife and Boorstyn for a sine of this length. */
    private Uncertainty ofTheSine(SineMean sine, FundamentalTrack spectral, double meanRpm) {
        double seconds = sine.toSeconds() - sine.fromSeconds();
        double samples = seconds * sampleRateHz;
        double stepsHz = Math.sqrt(24 / samples) * stepRms() / amplitude(spectral) / (2 * Math.PI * seconds);
        double relative = Math.max(stepsHz, sine.standardErrorHz()) / sine.frequencyHz();
        return new Uncertainty(meanRpm * relative, meanRpm * stepsHz / sine.frequencyHz(), 0, clockRpm(meanRpm));
    }

    private double clockRpm(double meanRpm) {
        return meanRpm * Uncertainty.clockShare(clockTolerancePpm);
    }

    private double stepRms() {
        return step / Math.sqrt(12);
    }

    private static double amplitude(FundamentalTrack spectral) {
        return Math.max(Double.MIN_NORMAL, Robust.median(spectral.rotating(spectral::amplitude)));
    }

    /**
     * By how much the speed swings within a frame [%], where that is so far that its spectrum has no one line; else 0. The sidebands of a wide
     * swing exceed its middle, so that the line that is taken may stand anywhere within it (Bessel's functions: J1 exceeds J0 from an index of 1.4
     * on).
     */
    private static double swingPercent(SpeedTrack track, int first, int end) {
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        int parts = Math.min(SWING_PARTS, end - first);
        for (int part = 0; part < parts; part++) {
            int from = first + (end - first) * part / parts;
            int to = first + (end - first) * (part + 1) / parts;
            double seconds = track.toSeconds(to - 1) - track.fromSeconds(from);
            double turns = 0;
            for (int i = from; i < to; i++) {
                turns += track.durationSeconds(i) * track.speedRpm(i);
            }
            low = Math.min(low, turns / seconds);
            high = Math.max(high, turns / seconds);
        }
        double percent = 100 * (high / low - 1);
        return percent > SWINGING_PERCENT ? percent : 0;
    }

    /** Frame by frame; a frame counts where no break lies in it or beside it. */
    private void compare(
            SpeedTrack track,
            FundamentalTrack spectral,
            Moments spectralRpm,
            Moments differencePercent,
            Moments swings) {
        double half = 0.5 * spectral.frameSeconds();
        for (int frame = 0; frame < spectral.frames(); frame++) {
            if (spectral.rotates(frame)) {
                double from = spectral.timeSeconds(frame) - half;
                double to = spectral.timeSeconds(frame) + half;
                int first = track.firstNotBefore(from);
                int end = track.firstNotBefore(to);
                boolean inside = first > 0 && end < track.size() && end - first >= 2;
                if (inside && track.isUnbroken(first - 1, end)) {
                    double rpm = tachometer.rpm(spectral.frequencyHz(frame));
                    swings.add(swingPercent(track, first, end));
                    spectralRpm.add(rpm);
                    differencePercent.add(100 * (rpm / track.meanRpm(new Stretch(from, to)) - 1));
                }
            }
        }
    }
}
