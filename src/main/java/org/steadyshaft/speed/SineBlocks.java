package org.steadyshaft.speed;

import java.util.Arrays;
import org.steadyshaft.signal.DoubleSeries;

/**
 * Fits a sine of fixed frequency to block after block of a stream (three-parameter least squares of IEEE Std 1057, offset
 * included) and keeps the phase of each. How the phase moves from block to block tells how far the true frequency is off.
 * Memory grows with the blocks.
 */
final class SineBlocks {
    /** A block holds about this many periods, so that the offset does not mix with the sine. */
    private static final double LEAST_PERIODS = 4;

    /** A recording is cut into about this many blocks. */
    private static final double WANTED_BLOCKS = 128;

    private final double frequencyHz;
    private final double rateHz;
    private final long firstSample;
    private final long endSample;
    private final int blockSamples;
    private final DoubleSeries.Builder phaseCycles = new DoubleSeries.Builder();
    private final DoubleSeries.Builder amplitude = new DoubleSeries.Builder();
    private final double[] sums = new double[8];
    private int filled;

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
        this.endSample = (long) Math.floor(toSeconds * rateHz);
        double periods = Math.max(LEAST_PERIODS, (toSeconds - fromSeconds) * frequencyHz / WANTED_BLOCKS);
        this.blockSamples = (int) Math.max(8, Math.round(Math.rint(periods) / frequencyHz * rateHz));
    }

    /** Takes the next samples; {@code first} is the index of the first one. One pass, no allocation. */
    void add(double[] samples, int count, long first) {
        for (int i = 0; i < count; i++) {
            long at = first + i;
            if (at >= firstSample && at < endSample) {
                double cycles = frequencyHz / rateHz * (at - firstSample);
                double angle = 2 * Math.PI * (cycles - Math.floor(cycles));
                collect(Math.cos(angle), Math.sin(angle), samples[i]);
                if (++filled == blockSamples) {
                    solve();
                }
            }
        }
    }

    private void collect(double c, double s, double y) {
        sums[0] += c;
        sums[1] += s;
        sums[2] += c * c;
        sums[3] += s * s;
        sums[4] += c * s;
        sums[5] += y;
        sums[6] += y * c;
        sums[7] += y * s;
    }

    /** Normal equations with the offset eliminated. */
    private void solve() {
        double n = filled;
        double cc = sums[2] - sums[0] * sums[0] / n;
        double ss = sums[3] - sums[1] * sums[1] / n;
        double cs = sums[4] - sums[0] * sums[1] / n;
        double yc = sums[6] - sums[5] * sums[0] / n;
        double ys = sums[7] - sums[5] * sums[1] / n;
        double det = cc * ss - cs * cs;
        double a = (yc * ss - ys * cs) / det;
        double b = (ys * cc - yc * cs) / det;
        phaseCycles.add(-Math.atan2(b, a) / (2 * Math.PI));
        amplitude.add(Math.hypot(a, b));
        Arrays.fill(sums, 0);
        filled = 0;
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
        return phaseCycles.build();
    }

    DoubleSeries amplitude() {
        return amplitude.build();
    }
}
