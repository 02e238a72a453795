package org.steadyshaft.condition;

import org.steadyshaft.signal.Waveform;

/**
 * Counts needles in the waveform: places where the second difference of neighbouring samples is many times its running mean.
 * A tacho's wave and its noise are smooth against the ringing of a triac that switches.
 */
public final class SpikeMeter implements Waveform.Listener {
    /** A needle's second difference over the running mean; Gaussian noise passes ten once in 10^14 samples. */
    private static final double NEEDLE = 10;

    /** The mean runs over this time. */
    private static final double MEAN_SECONDS = 0.02;

    /** One needle rings for a while and counts once. */
    private static final double DEAD_SECONDS = 0.003;

    private final double sampleRateHz;
    private final double forget;
    private final long deadSamples;
    private double before;
    private double beforeThat;
    private double mean;
    private long quietUntil;
    private long needles;
    private double heights;
    private long samples;

    public SpikeMeter(double sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.forget = 1 / Math.max(16, MEAN_SECONDS * sampleRateHz);
        this.deadSamples = (long) Math.ceil(DEAD_SECONDS * sampleRateHz);
        this.quietUntil = (long) (2 * MEAN_SECONDS * sampleRateHz);
    }

    /** One loop, no allocation; a needle is clamped before it enters the mean. */
    @Override
    public void block(double[] block, int count, long first) {
        for (int i = 0; i < count; i++) {
            double now = block[i];
            double second = Math.abs(now - 2 * before + beforeThat);
            beforeThat = before;
            before = now;
            if (second > NEEDLE * mean && first + i >= quietUntil && mean > 0) {
                needles++;
                heights += second;
                quietUntil = first + i + deadSamples;
            }
            mean += forget * (Math.min(second, 4 * mean + Double.MIN_NORMAL) - mean);
            if (first + i < 64) {
                mean = Math.max(mean, second);
            }
        }
        samples = first + count;
    }

    /** Needles a second. */
    public double perSecond() {
        return samples > 0 ? needles * sampleRateHz / samples : 0;
    }

    /** Mean height of a needle, about half of its second difference, in the unit of the samples; 0 without any. */
    public double height() {
        return needles > 0 ? 0.5 * heights / needles : 0;
    }
}
