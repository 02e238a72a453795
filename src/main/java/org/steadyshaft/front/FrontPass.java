package org.steadyshaft.front;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.steadyshaft.condition.ChunkSurvey;
import org.steadyshaft.numeric.InOrder;
import org.steadyshaft.numeric.SampleRows;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/**
 * The one pass over a recording: chunk by chunk it is decoded, surveyed at its full rate and brought to the lower rate of its plan, side
 * by side where the recording opens at any sample. Chunks are fixed by position, so the result is the same for any number of threads.
 */
final class FrontPass {
    /** Samples of a chunk: 2 MB of doubles a channel. */
    private static final int CHUNK = 1 << 18;

    /** Samples before and after a chunk: what filters and running means reach. */
    static final int HALO = 1 << 14;

    /** Samples of all channels at the lower rate that are kept in memory (100 MB); more are made again when they are asked for. */
    private static final long MOST_KEPT = 25_000_000;

    private final SampleSource source;
    private final int fromChannel;
    private final List<RatePlan> plans;
    private final double knownStep;
    private final long mostKept;
    private final Queue<Work> idle = new ConcurrentLinkedQueue<>();

    /** @param plans one for each channel from {@code fromChannel} on that is wanted */
    FrontPass(SampleSource source, int fromChannel, List<RatePlan> plans) {
        this(source, fromChannel, plans, MOST_KEPT);
    }

    /** @param mostKept samples of all channels at the lower rate that may be kept in memory */
    FrontPass(SampleSource source, int fromChannel, List<RatePlan> plans, long mostKept) {
        this.mostKept = mostKept;
        this.source = source;
        this.fromChannel = fromChannel;
        this.plans = List.copyOf(plans);
        this.knownStep = source.format().step().orElse(0);
    }

    /** What a thread works with. */
    private final class Work {
        private final double[][] samples = new double[source.channels()][2 * HALO + CHUNK];
        private final SampleRows rows = new SampleRows();
        private final List<RateLowerer> lowerers =
                plans.stream().map(RateLowerer::new).toList();
    }

    /** What the pass gave of each wanted channel. */
    List<ChannelFront> run() throws IOException {
        List<float[][]> kept = new ArrayList<>();
        long all = 0;
        for (RatePlan plan : plans) {
            all += keptSamples(plan);
        }
        boolean inMemory = all <= mostKept || !source.opensAnywhere();
        for (RatePlan plan : plans) {
            kept.add(inMemory ? pieces(keptSamples(plan)) : new float[0][]);
        }
        int chunks = (int) ((source.samples() + CHUNK - 1) / CHUNK);
        List<List<ChunkSurvey>> surveys =
                source.opensAnywhere() ? InOrder.map(chunks, c -> chunk(c, kept)) : sequential(chunks, kept);
        List<ChannelFront> fronts = new ArrayList<>();
        for (int i = 0; i < plans.size(); i++) {
            int index = i;
            List<ChunkSurvey> own = surveys.stream().map(s -> s.get(index)).toList();
            fronts.add(new ChannelFront(
                    fromChannel + i,
                    ChunkSurvey.levels(own, source.sampleRateHz()),
                    ChunkSurvey.spikes(own, source.sampleRateHz()),
                    own.stream().map(ChunkSurvey::bends).toList(),
                    plans.get(i),
                    waveform(i, kept.get(i))));
        }
        return fronts;
    }

    private KeptWaveform waveform(int index, float[][] kept) {
        RatePlan plan = plans.get(index);
        double rate = source.sampleRateHz();
        KeptWaveform.Pieces pieces =
                kept.length > 0 || source.samples() == 0 ? piece -> kept[piece] : new RemadePieces(this::remake, index);
        return new KeptWaveform(
                rate / plan.factor(),
                rate,
                Math.max(1, keptSamples(plan)),
                plan.cleanHz(rate),
                Math.max(1, source.samples()) / rate,
                pieces);
    }

    private long keptSamples(RatePlan plan) {
        return (source.samples() + plan.factor() - 1) / plan.factor();
    }

    private static float[][] pieces(long samples) {
        int count = (int) ((samples + KeptWaveform.PIECE_SAMPLES - 1) / KeptWaveform.PIECE_SAMPLES);
        float[][] pieces = new float[Math.max(1, count)][];
        for (int i = 0; i < pieces.length; i++) {
            long left = samples - (long) i * KeptWaveform.PIECE_SAMPLES;
            pieces[i] = new float[(int) Math.max(1, Math.min(KeptWaveform.PIECE_SAMPLES, left))];
        }
        return pieces;
    }

    private List<ChunkSurvey> chunk(int chunk, List<float[][]> kept) throws IOException {
        Work work = take();
        long first = (long) chunk * CHUNK;
        read(work.samples, first, CHUNK);
        List<ChunkSurvey> surveys = survey(work, first, kept);
        idle.add(work);
        return surveys;
    }

    private Work take() {
        Work work = idle.poll();
        return work == null ? new Work() : work;
    }

    /** Fills the arrays with the samples from {@code first} on, {@link #HALO} more before and after; zeros outside. */
    private void read(double[][] samples, long first, int count) throws IOException {
        long from = first - HALO;
        int lead = (int) Math.max(0, -from);
        for (double[] channel : samples) {
            Arrays.fill(channel, 0, lead, 0);
        }
        try (SampleRange range = new SampleRange(source, from + lead)) {
            range.fill(samples, lead, count + 2 * HALO - lead);
        }
    }

    /** Where a recording has to be read from its beginning, one chunk after the other. */
    private List<List<ChunkSurvey>> sequential(int chunks, List<float[][]> kept) throws IOException {
        List<List<ChunkSurvey>> surveys = new ArrayList<>();
        Work work = new Work();
        try (SampleRange range = new SampleRange(source, 0)) {
            range.fill(work.samples, HALO, HALO);
            for (int c = 0; c < chunks; c++) {
                range.fill(work.samples, 2 * HALO, CHUNK);
                surveys.add(survey(work, (long) c * CHUNK, kept));
                for (double[] channel : work.samples) {
                    System.arraycopy(channel, CHUNK, channel, 0, 2 * HALO);
                }
            }
        }
        return surveys;
    }

    private List<ChunkSurvey> survey(Work work, long first, List<float[][]> kept) {
        int count = (int) Math.min(CHUNK, source.samples() - first);
        int before = (int) Math.min(HALO - 2, first);
        List<ChunkSurvey> surveys = new ArrayList<>();
        for (int i = 0; i < plans.size(); i++) {
            double[] samples = work.samples[fromChannel + i];
            surveys.add(
                    new ChunkSurvey(samples, before, HALO, count, first, source.sampleRateHz(), knownStep, work.rows));
            if (kept.get(i).length > 0) {
                int factor = plans.get(i).factor();
                int low = (count + factor - 1) / factor;
                store(work.lowerers.get(i).lower(samples, HALO, low), low, first / factor, kept.get(i));
            }
        }
        return surveys;
    }

    private static void store(double[] low, int count, long first, float[][] pieces) {
        for (int done = 0; done < count; ) {
            float[] piece = pieces[(int) ((first + done) / KeptWaveform.PIECE_SAMPLES)];
            int at = (int) ((first + done) % KeptWaveform.PIECE_SAMPLES);
            int part = Math.min(count - done, piece.length - at);
            for (int i = 0; i < part; i++) {
                piece[at + i] = (float) low[done + i];
            }
            done += part;
        }
    }

    /** A piece of a channel's waveform, made again from the recording: the same values as in the pass. */
    private float[] remake(int index, int piece) throws IOException {
        int factor = plans.get(index).factor();
        long first = (long) piece * KeptWaveform.PIECE_SAMPLES;
        long left = keptSamples(plans.get(index)) - first;
        float[] made = new float[(int) Math.min(KeptWaveform.PIECE_SAMPLES, left)];
        Work work = take();
        int step = CHUNK / factor;
        for (int done = 0; done < made.length; done += step) {
            int count = Math.min(step, made.length - done);
            read(work.samples, (first + done) * factor, CHUNK);
            double[] low = work.lowerers.get(index).lower(work.samples[fromChannel + index], HALO, count);
            for (int i = 0; i < count; i++) {
                made[done + i] = (float) low[i];
            }
        }
        idle.add(work);
        return made;
    }
}
