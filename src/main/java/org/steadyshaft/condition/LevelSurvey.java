package org.steadyshaft.condition;

import java.util.Arrays;
import java.util.List;

/**
 * Levels of a channel: extremes, mean, the smallest step between neighbours, runs of one and the same value (held or missing samples) and
 * flat tops at the extremes (clipping). Joined from chunks, which {@link ChunkSurvey} looks at side by side.
 */
public final class LevelSurvey {
    /** Runs of equal samples are remembered from this length on; shorter ones are shorter than half a cycle. */
    private static final double SHORTEST_RUN_SECONDS = 0.0005;

    /** Never more runs than this; beyond, only runs four times as long are kept. */
    private static final int MOST_RUNS = 1 << 17;

    /** Share of the samples in flat tops and bottoms from which the channel is logic. */
    private static final double LOGIC_SHARE = 0.8;

    private final double sampleRateHz;
    private final LevelPart.Flats tops = new LevelPart.Flats(1);
    private final LevelPart.Flats bottoms = new LevelPart.Flats(-1);
    private long shortestRun;
    private long[] runStart = new long[64];
    private long[] runLength = new long[64];
    private double[] runValue = new double[64];
    private int runs;
    private long samples;
    private double sum;
    private double step = Double.POSITIVE_INFINITY;

    private LevelSurvey(double sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.shortestRun = shortestRun(sampleRateHz);
    }

    static int shortestRun(double sampleRateHz) {
        return (int) Math.max(8, Math.ceil(SHORTEST_RUN_SECONDS * sampleRateHz));
    }

    /** Joins the chunks of a channel, which follow one another from its first sample on. */
    static LevelSurvey of(List<LevelPart> parts, double sampleRateHz) {
        LevelSurvey survey = new LevelSurvey(sampleRateHz);
        double openValue = Double.NaN;
        long openLength = 0;
        for (LevelPart part : parts) {
            survey.samples += part.samples;
            survey.sum += part.sum;
            survey.step = Math.min(survey.step, part.step);
            survey.tops.add(part.tops);
            survey.bottoms.add(part.bottoms);
            if (part.firstValue == openValue) {
                openLength += part.leading;
            } else {
                survey.endRun(openValue, openLength, part.firstSample);
                openValue = part.firstValue;
                openLength = part.leading;
            }
            if (!part.isOneRun()) {
                survey.endRun(openValue, openLength, part.firstSample + part.leading);
                for (int i = 0; i < part.runs; i++) {
                    survey.keep(part.runStart[i], part.runLength[i], part.runValue[i]);
                }
                openValue = part.lastValue;
                openLength = part.trailing;
            }
        }
        survey.endRun(openValue, openLength, survey.samples);
        return survey;
    }

    private void endRun(double value, long length, long end) {
        if (length == 0) {
            return;
        }
        tops.reach(value);
        bottoms.reach(value);
        if (length >= LevelPart.FLAT_SAMPLES) {
            tops.count(value, length);
            bottoms.count(value, length);
        }
        keep(end - length, length, value);
    }

    private void keep(long start, long length, double value) {
        if (runs == MOST_RUNS) {
            dropShortRuns();
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

    private void dropShortRuns() {
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

    public long samples() {
        return samples;
    }

    public double mean() {
        return samples > 0 ? sum / samples : 0;
    }

    public double smallest() {
        return samples > 0 ? bottoms.extreme() : 0;
    }

    public double largest() {
        return samples > 0 ? tops.extreme() : 0;
    }

    /** Smallest difference between neighbours that differ; 0 if all are equal. */
    public double step() {
        return Double.isFinite(step) ? step : 0;
    }

    /** Number of flat tops at the highest and the lowest value together. */
    public long flatPeaks() {
        return largest() > smallest() ? tops.runs() + bottoms.runs() : tops.runs();
    }

    private long flatSamples() {
        return largest() > smallest() ? tops.samples() + bottoms.samples() : tops.samples();
    }

    /** Mean length of the flat tops [s]; 0 without any. */
    public double flatPeakSeconds() {
        return flatPeaks() > 0 ? flatSamples() / (flatPeaks() * sampleRateHz) : 0;
    }

    /** Share of the samples that stand in flat tops; noise cuts these into shorter ones, but not out. */
    public double flatShare() {
        return samples > 0 ? (double) flatSamples() / samples : 0;
    }

    /** Whether the channel stands at one of two levels nearly all the time: a tacho squared by a comparator. */
    public boolean isLogic() {
        return samples > 0 && largest() > smallest() && flatSamples() > LOGIC_SHARE * samples;
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
