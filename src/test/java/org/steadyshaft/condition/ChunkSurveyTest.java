package org.steadyshaft.condition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.numeric.SampleRows;

/** Chunks joined against a plain walk over all samples, wherever the chunks end. */
class ChunkSurveyTest {
    private static final double RATE_HZ = 48000;
    private static final double STEP = 1.0 / 128;
    private static final int HALO = 16384;

    /** Coarse noise with held values, flat tops, and a constant stretch longer than a chunk. */
    private static double[] samples(long seed) {
        Random random = new Random(seed);
        double[] all = new double[20000 + random.nextInt(9000)];
        for (int i = 0; i < all.length; i++) {
            double wave = 1.2 * Math.sin(2 * Math.PI * i / (150 + seed)) + 0.02 * random.nextGaussian();
            all[i] = STEP * Math.rint(Math.max(-1, Math.min(1, wave)) / STEP);
        }
        for (int hold = 0; hold < 8; hold++) {
            int from = random.nextInt(all.length - 600);
            Arrays.fill(all, from, from + 5 + random.nextInt(500), STEP * random.nextInt(100));
        }
        Arrays.fill(all, 9000, 13000, 0.5);
        return all;
    }

    private static List<ChunkSurvey> surveys(double[] all, int chunk) {
        List<ChunkSurvey> surveys = new ArrayList<>();
        for (int from = 0; from < all.length; from += chunk) {
            int count = Math.min(chunk, all.length - from);
            double[] in = new double[HALO + count];
            int before = Math.min(HALO, from);
            System.arraycopy(all, from - before, in, HALO - before, before + count);
            surveys.add(new ChunkSurvey(
                    in, Math.min(before, HALO - 2), HALO, count, from, RATE_HZ, STEP, new SampleRows()));
        }
        return surveys;
    }

    static List<long[]> cases() {
        return IntStream.range(0, 40)
                .mapToObj(i -> new long[] {
                    i, List.of(700, 1003, 1640, 2500, 4096, 8192, 30000).get(i % 7)
                })
                .toList();
    }

    @ParameterizedTest
    @MethodSource("cases")
    void levelsAreThoseOfAPlainWalk(long[] seedAndChunk) {
        double[] all = samples(seedAndChunk[0]);
        String where = "seed " + seedAndChunk[0] + ", chunks of " + seedAndChunk[1];
        LevelSurvey found = ChunkSurvey.levels(surveys(all, (int) seedAndChunk[1]), RATE_HZ);
        double largest = Arrays.stream(all).max().orElseThrow();
        double smallest = Arrays.stream(all).min().orElseThrow();
        int shortest = LevelSurvey.shortestRun(RATE_HZ);
        List<String> runs = new ArrayList<>();
        long flats = 0;
        for (int from = 0; from < all.length; ) {
            int end = from + 1;
            while (end < all.length && all[end] == all[from]) {
                end++;
            }
            flats += end - from >= 3 && (all[from] == largest || all[from] == smallest) ? 1 : 0;
            if (end - from >= shortest) {
                runs.add(from / RATE_HZ + " " + (end - from) / RATE_HZ + " " + all[from]);
            }
            from = end;
        }
        assertEquals(largest, found.largest(), where);
        assertEquals(smallest, found.smallest(), where);
        assertEquals(STEP, found.step(), where);
        assertEquals(Arrays.stream(all).average().orElseThrow(), found.mean(), 1e-12, where);
        assertEquals(flats, found.flatPeaks(), where);
        List<String> foundRuns = new ArrayList<>();
        for (int i = 0; i < found.runs(); i++) {
            foundRuns.add(found.runFromSeconds(i) + " " + found.runSeconds(i) + " " + found.runValue(i));
        }
        assertEquals(runs, foundRuns, where);
    }

    @Test
    void aConstantChannelIsOneRun() {
        LevelSurvey found = ChunkSurvey.levels(surveys(new double[10000], 512), RATE_HZ);
        assertEquals(1, found.runs());
        assertEquals(10000 / RATE_HZ, found.runSeconds(0));
        assertEquals(0, found.step());
        assertEquals(found.smallest(), found.largest());
    }

    /** Needles of the height of the tacho every 10 ms, wherever the chunks end; the first of them may be missed while the mean starts. */
    @ParameterizedTest
    @ValueSource(ints = {4096, 10000, 65536})
    void needlesAreCountedOnce(int chunk) {
        Random random = new Random(3);
        double[] all = new double[200_000];
        for (int i = 0; i < all.length; i++) {
            all[i] = 0.5 * Math.sin(2 * Math.PI * 200 * i / RATE_HZ) + 0.001 * random.nextGaussian();
        }
        int needles = 0;
        for (int i = 3000; i < all.length; i += 480) {
            all[i] += 0.5;
            needles++;
        }
        Spikes spikes = ChunkSurvey.spikes(surveys(all, chunk), RATE_HZ);
        assertEquals(needles * RATE_HZ / all.length, spikes.perSecond(), 0.5, "needles a second");
        // its first second difference is the needle's height, of which half is told
        assertEquals(0.25, spikes.height(), 0.01, "height");
    }

    @Test
    void aQuietWaveHasNoNeedles() {
        double[] all = new double[200_000];
        Random random = new Random(4);
        for (int i = 0; i < all.length; i++) {
            all[i] = 0.5 * Math.sin(2 * Math.PI * 200 * i / RATE_HZ) + 0.001 * random.nextGaussian();
        }
        assertEquals(0, ChunkSurvey.spikes(surveys(all, 8192), RATE_HZ).perSecond());
    }

    @Test
    void aFasterToneBendsMore() {
        double[] slow = tone(100);
        double[] fast = tone(400);
        float bendSlow = surveys(slow, slow.length).get(0).bends()[2];
        float bendFast = surveys(fast, fast.length).get(0).bends()[2];
        assertTrue(bendFast > 15 * bendSlow && bendFast < 17 * bendSlow, bendSlow + " and " + bendFast);
    }

    private static double[] tone(double hz) {
        return IntStream.range(0, 48000)
                .mapToDouble(i -> Math.sin(2 * Math.PI * hz * i / RATE_HZ))
                .toArray();
    }
}
