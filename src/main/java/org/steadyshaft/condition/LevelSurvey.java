package org.steadyshaft.condition;

import java.util.Arrays;
import org.steadyshaft.signal.Waveform;

/**
 * Levels of a channel, gathered in one pass: extremes, mean, the smallest step between neighbours, runs of one and the
 * same value (held or missing samples) and flat tops at the extremes (clipping).
 */
public final class LevelSurvey implements Waveform.Listener {
    /** Runs of equal samples are remembered from this length on; shorter ones are shorter than half a cycle. */
    private static final double SHORTEST_RUN_SECONDS = 0.0005;

    /** Never more runs than this; beyond, only runs four times as long are kept. */
    private static final int MOST_RUNS = 1 << 17;

    /** A flat top has this many equal samples at least: a pure sine never gives three unless its steps are coarse. */
    private static final int FLAT_SAMPLES = 3;

    /** Share of the samples in flat tops and bottoms from which the channel is logic. */
    private static final double LOGIC_SHARE = 0.8;

    private final double sampleRateHz;
    private long shortestRun;
    private long[] runStart = new long[64];
    private long[] runLength = new long[64];
    private double[] runValue = new double[64];
    private int runs;
    private long samples;
    private double sum;
    private double smallest = Double.POSITIVE_INFINITY;
    private double largest = Double.NEGATIVE_INFINITY;
    private double step = Double.POSITIVE_INFINITY;
    private double previous = Double.NaN;
    private long run;
    private long flatTops;
    private long flatSamples;
    private long flatBottoms;
    private long flatBottomSamples;

    public LevelSurvey(double sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.shortestRun = Math.max(8, (long) Math.ceil(SHORTEST_RUN_SECONDS * sampleRateHz));
    }

    /** One loop; nearly every sample differs from its neighbour, so the work of {@link #endRun} is rare where it costs. */
    @Override
    public void block(double[] block, int count, long first) {
        double before = previous;
        double total = 0;
        double finest = step;
        long same = run;
        for (int i = 0; i < count; i++) {
            double now = block[i];
            total += now;
            if (now == before) {
                same++;
            } else {
                endRun(before, same, first + i);
                finest = Math.min(finest, Math.abs(now - before));
                same = 1;
                before = now;
            }
        }
        run = same;
        previous = before;
        step = finest;
        sum += total;
        samples += count;
    }

    private void endRun(double value, long length, long end) {
        if (length == 0) {
            return;
        }
        if (value > largest) {
            largest = value;
            flatTops = 0;
            flatSamples = 0;
        }
        if (value < smallest) {
            smallest = value;
            flatBottoms = 0;
            flatBottomSamples = 0;
        }
        if (length >= FLAT_SAMPLES) {
            countFlat(value, length);
        }
        if (length >= shortestRun) {
            keep(end - length, length, value);
        }
    }

    private void countFlat(double value, long length) {
        if (value == largest) {
            flatTops++;
            flatSamples += length;
        } else if (value == smallest) {
            flatBottoms++;
            flatBottomSamples += length;
        }
    }

    private void keep(long start, long length, double value) {
        if (runs == MOST_RUNS) {
            shortestRun *= 4;
            int kept = 0;
            for (int i = 0; i < runs; i++) {
                if (runLength[i] >= shortestRun) {
                    runStart[kept] = runStart[i];
                    runValue[kept] = runValue[i];
                    runLength[kept++] = runLength[i];
                }
            }
            runs = kept;
        }
        if (length < shortestRun) {
            return;
        }
        if (runs == runStart.length) {
            runStart = Arrays.copyOf(runStart, 2 * runs);
            runLength = Arrays.copyOf(runLength, 2 * runs);
            runValue = Arrays.copyOf(runValue, 2 * runs);
        }
        runStart[runs] = start;
        runValue[runs] = value;
        runLength[runs++] = length;
    }

    /** Ends the last run; to be called once, after the last block. */
    public void finish() {
        endRun(previous, run, samples);
        run = 0;
    }

    public long samples() {
        return samples;
    }

    public double mean() {
        return samples > 0 ? sum / samples : 0;
    }

    public double smallest() {
        return samples > 0 ? smallest : 0;
    }

    public double largest() {
        return samples > 0 ? largest : 0;
    }

    /** Smallest difference between neighbours that differ; 0 if all are equal. */
    public double step() {
        return Double.isFinite(step) ? step : 0;
    }

    /** Number of flat tops at the highest and the lowest value together. */
    public long flatPeaks() {
        return flatTops + flatBottoms;
    }

    /** Mean length of the flat tops [s]; 0 without any. */
    public double flatPeakSeconds() {
        return flatPeaks() > 0 ? (flatSamples + flatBottomSamples) / (flatPeaks() * sampleRateHz) : 0;
    }

    /** Whether the channel stands at one of two levels nearly all the time: a tacho squared by a comparator. */
    public boolean isLogic() {
        return samples > 0 && largest > smallest && flatSamples + flatBottomSamples > LOGIC_SHARE * samples;
    }

    int runs() {
        return runs;
    }

    double runFromSeconds(int index) {
        return runStart[index] / sampleRateHz;
    }

    double runValue(int index) {
        return runValue[index];
    }

    double runSeconds(int index) {
        return runLength[index] / sampleRateHz;
    }
}
