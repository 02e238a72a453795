package org.steadyshaft.signal;

import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * The tacho frequency over time as short-time spectra show it: one entry a frame, frames evenly spaced. A frame without
 * rotation has frequency 0.
 */
public final class FundamentalTrack {
    /** A tacho is followed up to this frequency. */
    public static final double HIGHEST_HZ = 15_000;

    /** Faster ones are rare; a converter's whistle is likelier. */
    public static final double RARE_HZ = 6000;

    /** From this share of that on, one that is lost has likely risen beyond it. */
    public static final double NEAR_THE_HIGHEST = 0.8;

    private final double firstSeconds;
    private final double hopSeconds;
    private final double frameSeconds;
    private final DoubleSeries frequencyHz;
    private final DoubleSeries amplitude;
    private final DoubleSeries second;
    private final DoubleSeries noise;

    /**
     * @param firstSeconds time of the first frame's middle
     * @param hopSeconds from one frame's middle to the next
     * @param frameSeconds length of a frame
     * @param frequencyHz one value a frame; 0 where nothing turned
     * @param amplitude peak amplitude of the fundamental, in the unit of the samples; 0 where nothing turned
     * @param second peak amplitude of the second harmonic; 0 where none stood clear
     * @param noise rms of what lies between the lines, in the unit of the samples
     */
    public FundamentalTrack(
            double firstSeconds,
            double hopSeconds,
            double frameSeconds,
            DoubleSeries frequencyHz,
            DoubleSeries amplitude,
            DoubleSeries second,
            DoubleSeries noise) {
        if (frequencyHz.size() != amplitude.size()
                || frequencyHz.size() != second.size()
                || frequencyHz.size() != noise.size()) {
            throw new IllegalArgumentException("series of different lengths");
        }
        if (!(hopSeconds > 0) || !(frameSeconds > 0)) {
            throw new IllegalArgumentException("hop " + hopSeconds + " s, frame " + frameSeconds + " s");
        }
        this.firstSeconds = firstSeconds;
        this.hopSeconds = hopSeconds;
        this.frameSeconds = frameSeconds;
        this.frequencyHz = frequencyHz;
        this.amplitude = amplitude;
        this.second = second;
        this.noise = noise;
    }

    public int frames() {
        return frequencyHz.size();
    }

    public double timeSeconds(int frame) {
        return firstSeconds + frame * hopSeconds;
    }

    public double frequencyHz(int frame) {
        return frequencyHz.get(frame);
    }

    public double amplitude(int frame) {
        return amplitude.get(frame);
    }

    /** Peak amplitude of the second harmonic; 0 where none stood clear of the noise. */
    public double second(int frame) {
        return second.get(frame);
    }

    public double noise(int frame) {
        return noise.get(frame);
    }

    public boolean rotates(int frame) {
        return frequencyHz.get(frame) > 0;
    }

    public double hopSeconds() {
        return hopSeconds;
    }

    public double frameSeconds() {
        return frameSeconds;
    }

    /** The frame whose middle lies nearest to a time. */
    public int nearestFrame(double timeSeconds) {
        long frame = Math.round((timeSeconds - firstSeconds) / hopSeconds);
        return (int) Math.max(0, Math.min(frames() - 1L, frame));
    }

    /** A value of every rotating frame, in order. */
    public double[] rotating(IntToDoubleFunction value) {
        return IntStream.range(0, frames())
                .filter(this::rotates)
                .mapToDouble(value)
                .toArray();
    }

    /** The same track with some frames standing still. */
    public FundamentalTrack resting(IntPredicate rests) {
        DoubleSeries.Builder hz = new DoubleSeries.Builder();
        DoubleSeries.Builder first = new DoubleSeries.Builder();
        DoubleSeries.Builder twice = new DoubleSeries.Builder();
        for (int i = 0; i < frames(); i++) {
            hz.add(rests.test(i) ? 0 : frequencyHz(i));
            first.add(rests.test(i) ? 0 : amplitude(i));
            twice.add(rests.test(i) ? 0 : second(i));
        }
        return new FundamentalTrack(
                firstSeconds, hopSeconds, frameSeconds, hz.build(), first.build(), twice.build(), noise);
    }

    /**
     * The track of a harmonic of what was tracked.
     *
     * @param order how many times the frequency
     * @param level its amplitude over that of what was tracked
     */
    public FundamentalTrack harmonic(int order, double level) {
        return new FundamentalTrack(
                firstSeconds,
                hopSeconds,
                frameSeconds,
                DoubleSeries.of(frequencyHz.stream().map(f -> order * f).toArray()),
                DoubleSeries.of(amplitude.stream().map(a -> level * a).toArray()),
                DoubleSeries.of(new double[frames()]),
                noise);
    }

    /** Number of frames with rotation. */
    public int rotatingFrames() {
        return (int) frequencyHz.stream().filter(f -> f > 0).count();
    }
}
