package org.steadyshaft.speed;

import org.steadyshaft.signal.DoubleSeries;

/**
 * Fits a sine of fixed frequency to block after block of a stream (three-parameter least squares of IEEE Std 1057, offset
 * included) and keeps the phase of each. How the phase moves from block to block tells how far the true frequency is off. The
 * sums of a block can be gathered in parts, which are added up. Memory grows with the blocks.
 */
final class SineBlocks {
    /** A block holds about this many periods, so that the offset does not mix with the sine. */
    private static final double LEAST_PERIODS = 4;

    /** A recording is cut into about this many blocks. */
    private static final double WANTED_BLOCKS = 128;

    /** The sine goes on by rotation over so many samples from an exact start. */
    private static final int RESTART = 64;

    private static final int SUMS = 8;

    private final double frequencyHz;
    private final double rateHz;
    private final long firstSample;
    private final int blockSamples;
    private final int blocks;
    private final double[] sums;

    /**
     * @param frequencyHz of the sine to be fitted
     * @param rateHz samples a second
     * @param fromSeconds the first block begins here
     * @param toSeconds the last block ends before this
     */
    SineBlocks(double frequencyHz, double rateHz, double fromSeconds, double toSeconds) {
        this.frequencyHz = frequencyHz;
        this.rateHz = rateHz;
        this.firstSample = (long) Math.ceil(fromSeconds * rateHz);
        double periods = Math.max(LEAST_PERIODS, (toSeconds - fromSeconds) * frequencyHz / WANTED_BLOCKS);
        this.blockSamples = (int) Math.max(8, Math.round(Math.rint(periods) / frequencyHz * rateHz));
        this.blocks = (int) Math.max(0, ((long) Math.floor(toSeconds * rateHz) - firstSample) / blockSamples);
        this.sums = new double[SUMS * blocks];
    }

    /** Sums without samples for the same blocks: for another part of the stream. */
    SineBlocks part() {
        return new SineBlocks(this);
    }

    private SineBlocks(SineBlocks like) {
        this.frequencyHz = like.frequencyHz;
        this.rateHz = like.rateHz;
        this.firstSample = like.firstSample;
        this.blockSamples = like.blockSamples;
        this.blocks = like.blocks;
        this.sums = new double[SUMS * blocks];
    }

    /** Takes samples {@code from} to {@code to - 1} of an array whose first one has the index {@code first} in the stream. */
    void add(double[] samples, int from, int to, long first) {
        long end = firstSample + (long) blocks * blockSamples;
        int at = (int) Math.max(from, Math.min(to, firstSample - first));
        int stop = (int) Math.max(at, Math.min(to, end - first));
        while (at < stop) {
            long inRow = first + at - firstSample;
            int block = (int) (inRow / blockSamples);
            int part = (int) Math.min(stop - at, Math.min(RESTART, (block + 1L) * blockSamples - inRow));
            collect(samples, at, at + part, inRow, SUMS * block);
            at += part;
        }
    }

    /** One pass, no allocation. */
    private void collect(double[] samples, int from, int to, long inRow, int at) {
        double cycles = frequencyHz / rateHz * inRow;
        double angle = 2 * Math.PI * (cycles - Math.floor(cycles));
        double turnRe = Math.cos(2 * Math.PI * frequencyHz / rateHz);
        double turnIm = Math.sin(2 * Math.PI * frequencyHz / rateHz);
        double c = Math.cos(angle);
        double s = Math.sin(angle);
        for (int i = from; i < to; i++) {
            double y = samples[i];
            sums[at] += c;
            sums[at + 1] += s;
            sums[at + 2] += c * c;
            sums[at + 3] += s * s;
            sums[at + 4] += c * s;
            sums[at + 5] += y;
            sums[at + 6] += y * c;
            sums[at + 7] += y * s;
            double next = c * turnRe - s * turnIm;
            s = c * turnIm + s * turnRe;
            c = next;
        }
    }

    /** Adds the sums of another part. */
    void add(SineBlocks part) {
        for (int i = 0; i < sums.length; i++) {
            sums[i] += part.sums[i];
        }
    }

    double frequencyHz() {
        return frequencyHz;
    }

    double fromSeconds() {
        return firstSample / rateHz;
    }

    double blockSeconds() {
        return blockSamples / rateHz;
    }

    /** Phase of each block against the sine of the fixed frequency [cycles], -1/2 to 1/2. */
    DoubleSeries phaseCycles() {
        DoubleSeries.Builder phase = new DoubleSeries.Builder();
        for (int block = 0; block < blocks; block++) {
            Coefficients fit = solve(SUMS * block);
            phase.add(-Math.atan2(fit.sine, fit.cosine) / (2 * Math.PI));
        }
        return phase.build();
    }

    DoubleSeries amplitude() {
        DoubleSeries.Builder amplitude = new DoubleSeries.Builder();
        for (int block = 0; block < blocks; block++) {
            Coefficients fit = solve(SUMS * block);
            amplitude.add(Math.hypot(fit.cosine, fit.sine));
        }
        return amplitude.build();
    }

    private record Coefficients(double cosine, double sine) {}

    /** Normal equations with the offset eliminated. */
    private Coefficients solve(int at) {
        double n = blockSamples;
        double cc = sums[at + 2] - sums[at] * sums[at] / n;
        double ss = sums[at + 3] - sums[at + 1] * sums[at + 1] / n;
        double cs = sums[at + 4] - sums[at] * sums[at + 1] / n;
        double yc = sums[at + 6] - sums[at + 5] * sums[at] / n;
        double ys = sums[at + 7] - sums[at + 5] * sums[at + 1] / n;
        double det = cc * ss - cs * cs;
        return new Coefficients((yc * ss - ys * cs) / det, (ys * cc - yc * cs) / det);
    }
}
