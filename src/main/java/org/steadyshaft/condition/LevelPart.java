package org.steadyshaft.condition;

import java.util.Arrays;
import org.steadyshaft.numeric.SampleRows;

/**
 * The levels of one chunk of a channel: extremes, sum, smallest step, and the runs of one and the same value. Runs that touch an end of the
 * chunk are kept apart, since they may go on in the next one; {@link LevelSurvey} joins the chunks.
 */
final class LevelPart {
    /** A flat top has this many equal samples at least: a pure sine never gives three unless its steps are coarse. */
    static final int FLAT_SAMPLES = 3;

    /** The samples, until they have been looked at: then others take their place. */
    private double[] in;

    private final int from;
    private final int shortestRun;
    private final int innerTo;
    final long firstSample;
    final int samples;
    final double sum;
    final double firstValue;
    final double lastValue;
    final int leading;
    final int trailing;
    final Flats tops = new Flats(1);
    final Flats bottoms = new Flats(-1);
    double step = Double.POSITIVE_INFINITY;
    long[] runStart = new long[8];
    int[] runLength = new int[8];
    double[] runValue = new double[8];
    int runs;
    private int scanned;

    /**
     * @param in the chunk's samples from {@code from} on, with one before it; before the recording's first sample anything
     * @param shortestRun runs from this length on are kept one by one
     * @param knownStep smallest step that the format can hold; 0 if unknown
     */
    LevelPart(double[] in, int from, int samples, long firstSample, int shortestRun, double knownStep) {
        this.in = in;
        this.from = from;
        this.shortestRun = shortestRun;
        this.firstSample = firstSample;
        this.samples = samples;
        this.firstValue = in[from];
        this.lastValue = in[from + samples - 1];
        int end = from + samples;
        int head = from + 1;
        while (head < end && in[head] == firstValue) {
            head++;
        }
        int tail = end - 1;
        while (tail > head && in[tail - 1] == lastValue) {
            tail--;
        }
        this.leading = head - from;
        this.trailing = head == end ? samples : end - tail;
        this.innerTo = head == end ? end : tail;
        this.scanned = head;
        this.sum = sum(in, from, end);
        smallestStep(in, firstSample == 0 ? from + 1 : from, end, knownStep);
    }

    /** Whether all samples are equal: the first run is the last one. */
    boolean isOneRun() {
        return leading == samples;
    }

    private static double sum(double[] in, int from, int end) {
        double a = 0;
        double b = 0;
        double c = 0;
        double d = 0;
        int i = from;
        for (; i + 3 < end; i += 4) {
            a += in[i];
            b += in[i + 1];
            c += in[i + 2];
            d += in[i + 3];
        }
        for (; i < end; i++) {
            a += in[i];
        }
        return (a + b) + (c + d);
    }

    /** Stops at the step that is known to be the smallest, so that it costs nothing where the format tells it. */
    private void smallestStep(double[] in, int from, int end, double knownStep) {
        double finest = Double.POSITIVE_INFINITY;
        for (int i = from; i < end && finest > knownStep; i++) {
            double away = Math.abs(in[i] - in[i - 1]);
            finest = away != 0 && away < finest ? away : finest;
        }
        this.step = finest;
    }

    /** Extremes and runs of some rows, which were looked at before. */
    void rows(SampleRows rows, int at, int count) {
        tops.reach(rows.largest(count));
        bottoms.reach(rows.smallest(count));
        if (rows.holdsRun(count)) {
            runs(at, at + count * SampleRows.ROW);
        }
    }

    /** Extremes and runs of samples that fill no row. */
    void samples(int at, int end) {
        for (int i = at; i < end; i++) {
            tops.reach(in[i]);
            bottoms.reach(in[i]);
        }
        runs(at, end);
    }

    /** Runs between the outer ones that begin or go on between two places, sample by sample; each is followed to its own ends. */
    private void runs(int from, int to) {
        int start = Math.max(scanned, from);
        if (start >= Math.min(to, innerTo)) {
            return;
        }
        while (start > scanned && in[start - 1] == in[start]) {
            start--;
        }
        while (start < Math.min(to, innerTo)) {
            int end = start + 1;
            while (end < innerTo && in[end] == in[start]) {
                end++;
            }
            if (end - start >= FLAT_SAMPLES) {
                tops.count(in[start], end - start);
                bottoms.count(in[start], end - start);
                if (end - start >= shortestRun) {
                    keep(firstSample + start - this.from, end - start, in[start]);
                }
            }
            start = end;
        }
        scanned = start;
    }

    /** To be called once, when all samples were looked at. */
    void finish() {
        in = new double[0];
    }

    private void keep(long start, int length, double value) {
        if (runs == runStart.length) {
            runStart = Arrays.copyOf(runStart, 2 * runs);
            runLength = Arrays.copyOf(runLength, 2 * runs);
            runValue = Arrays.copyOf(runValue, 2 * runs);
        }
        runStart[runs] = start;
        runLength[runs] = length;
        runValue[runs++] = value;
    }

    /** Flat tops (sign 1) or bottoms (sign -1): how many runs stand at the extreme value, and their samples. */
    static final class Flats {
        private final int sign;
        private double extreme = Double.NEGATIVE_INFINITY;
        private long runs;
        private long samples;

        Flats(int sign) {
            this.sign = sign;
        }

        void reach(double value) {
            if (sign * value > extreme) {
                extreme = sign * value;
                runs = 0;
                samples = 0;
            }
        }

        void count(double value, long length) {
            if (sign * value == extreme) {
                runs++;
                samples += length;
            }
        }

        void add(Flats other) {
            reach(sign * other.extreme);
            if (other.extreme == extreme) {
                runs += other.runs;
                samples += other.samples;
            }
        }

        double extreme() {
            return sign * extreme;
        }

        long runs() {
            return runs;
        }

        long samples() {
            return samples;
        }
    }
}
