package org.steadyshaft.condition;

import org.steadyshaft.numeric.SampleRows;

/**
 * Needles in one chunk: places where the second difference of neighbouring samples is many times its running mean. The mean runs into the
 * chunk from the samples before it, so that where a chunk begins makes no difference. Groups of samples in which nothing stands out move the
 * mean in one step; the others are walked through one by one.
 */
final class SpikePart {
    /** A needle's second difference over the running mean; Gaussian noise passes ten once in 10^14 samples. */
    private static final double NEEDLE = 10;

    /** The mean runs over this time. */
    private static final double MEAN_SECONDS = 0.02;

    /** One needle rings for a while and counts once. */
    private static final double DEAD_SECONDS = 0.003;

    /** A second difference enters the mean with at most this many times the mean, so that a needle hardly moves it. */
    private static final double CLAMP = 4;

    static final int ROWS_A_GROUP = 8;
    private static final int GROUP = ROWS_A_GROUP * SampleRows.ROW;

    /** Mean second difference over so many samples is kept: what the pilot's look is checked by. */
    static final int BEND_SAMPLES = 4096;

    private final double forget;
    private final double forgetGroup;
    private final long deadSamples;
    /** The samples, until they have been looked at: then others take their place. */
    private double[] in;

    private final int from;
    private final int end;
    private final float[] bends;
    private double mean;
    private int quietUntil;
    private int needles;
    private double heights;

    /**
     * @param in the chunk's samples from {@code from} on, and those before it
     * @param warm from here on samples belong to the recording; two samples later the mean starts
     * @param from from here on needles count
     * @param end index behind the last sample
     */
    SpikePart(double[] in, int warm, int from, int end, double sampleRateHz, SampleRows rows) {
        this.in = in;
        this.from = from;
        this.end = end;
        this.forget = 1 / Math.max(16, MEAN_SECONDS * sampleRateHz);
        this.forgetGroup = 1 - Math.pow(1 - forget, GROUP);
        this.deadSamples = (long) Math.ceil(DEAD_SECONDS * sampleRateHz);
        this.bends = new float[(Math.max(0, end - from) + BEND_SAMPLES - 1) / BEND_SAMPLES];
        int first = from - Math.max(0, from - warm - 2) / GROUP * GROUP;
        mean = startingMean(first, Math.min(end, first + BEND_SAMPLES));
        for (int at = first; at < from; at += SampleRows.ROW * SampleRows.MOST_ROWS) {
            int count = Math.min(SampleRows.MOST_ROWS, (from - at) / SampleRows.ROW);
            rows.look(in, at, count);
            rows(rows, at, count);
        }
    }

    private double startingMean(int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += second(i);
        }
        return end > from ? sum / (end - from) : 0;
    }

    private double second(int i) {
        return Math.abs(in[i] - 2 * in[i - 1] + in[i - 2]);
    }

    /** Some rows, whole groups of them, which were looked at before. */
    void rows(SampleRows rows, int at, int count) {
        for (int row = 0; row < count; row += ROWS_A_GROUP) {
            group(rows, row, at + row * SampleRows.ROW);
        }
    }

    /** Samples that fill no group. */
    void samples(int at, int to) {
        oneByOne(at, to);
    }

    /** To be called once, when all samples were looked at. */
    void finish() {
        in = new double[0];
        for (int b = 0; b < bends.length; b++) {
            bends[b] /= Math.min(BEND_SAMPLES, end - from - b * BEND_SAMPLES);
        }
    }

    private void group(SampleRows rows, int row, int at) {
        double sum = 0;
        double most = 0;
        for (int r = row; r < row + ROWS_A_GROUP; r++) {
            sum += rows.bend(r);
            most = Math.max(most, rows.sharpest(r));
        }
        if (at >= from) {
            bends[(at - from) / BEND_SAMPLES] += (float) sum;
        }
        if (most <= CLAMP * mean) {
            mean += forgetGroup * (sum / GROUP - mean);
        } else {
            oneByOne(at, at + GROUP);
        }
    }

    /** A needle is clamped before it enters the mean. */
    private void oneByOne(int at, int to) {
        for (int i = at; i < to; i++) {
            double second = second(i);
            if (second > NEEDLE * mean && i >= quietUntil && mean > 0) {
                quietUntil = (int) Math.min(Integer.MAX_VALUE, i + deadSamples);
                if (i >= from) {
                    needles++;
                    heights += second;
                }
            }
            mean += forget * (Math.min(second, CLAMP * mean + Double.MIN_NORMAL) - mean);
        }
    }

    int needles() {
        return needles;
    }

    double heights() {
        return heights;
    }

    /** Mean second difference of each {@value #BEND_SAMPLES} samples. */
    float[] bends() {
        return bends;
    }
}
