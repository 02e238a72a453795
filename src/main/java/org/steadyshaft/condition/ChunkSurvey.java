package org.steadyshaft.condition;

import java.util.List;
import org.steadyshaft.numeric.SampleRows;

/**
 * What one chunk of a channel shows at its full rate: levels and needles. Chunks are looked at side by side and joined afterwards, so the
 * result depends on where they lie and not on how many threads there were.
 */
public final class ChunkSurvey {
    private final LevelPart levels;
    private final SpikePart spikes;

    /**
     * @param in the chunk's samples from {@code from} on; at least two before it must be there, whatever they hold
     * @param before how many samples before {@code from} belong to the recording
     * @param samples length of the chunk; at least 1
     * @param firstSample its place in the recording
     * @param knownStep smallest step that the format can hold; 0 if unknown
     * @param rows what the samples are looked at with
     */
    public ChunkSurvey(
            double[] in,
            int before,
            int from,
            int samples,
            long firstSample,
            double sampleRateHz,
            double knownStep,
            SampleRows rows) {
        int end = from + samples;
        int shortest = LevelSurvey.shortestRun(sampleRateHz);
        this.levels = new LevelPart(in, from, samples, firstSample, shortest, knownStep);
        this.spikes = new SpikePart(in, from - before, firstSample == 0 ? from + 2 : from, end, sampleRateHz, rows);
        int at = from;
        if (firstSample == 0) {
            at = Math.min(end, from + 2);
            levels.samples(from, at);
        }
        int group = SampleRows.ROW * SpikePart.ROWS_A_GROUP;
        while (end - at >= group) {
            int count = Math.min(SampleRows.MOST_ROWS, (end - at) / group * SpikePart.ROWS_A_GROUP);
            rows.look(in, at, count);
            levels.rows(rows, at, count);
            spikes.rows(rows, at, count);
            at += count * SampleRows.ROW;
        }
        levels.samples(at, end);
        spikes.samples(at, end);
        levels.finish();
        spikes.finish();
    }

    /** Levels of the channel. */
    public static LevelSurvey levels(List<ChunkSurvey> chunks, double sampleRateHz) {
        return LevelSurvey.of(chunks.stream().map(c -> c.levels).toList(), sampleRateHz);
    }

    /** Needles of the channel. */
    public static Spikes spikes(List<ChunkSurvey> chunks, double sampleRateHz) {
        long samples = chunks.stream().mapToLong(c -> c.levels.samples).sum();
        long needles = chunks.stream().mapToLong(c -> c.spikes.needles()).sum();
        double heights = 0;
        for (ChunkSurvey chunk : chunks) {
            heights += chunk.spikes.heights();
        }
        return new Spikes(
                samples > 0 ? needles * sampleRateHz / samples : 0, needles > 0 ? 0.5 * heights / needles : 0);
    }

    /** Samples that a value of {@link #bends} stands for. */
    public static int bendSamples() {
        return SpikePart.BEND_SAMPLES;
    }

    /** Mean second difference of the samples, piece by piece: grows with amplitude and the square of the frequency. */
    public float[] bends() {
        return spikes.bends();
    }
}
