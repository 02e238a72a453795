package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Random samples coded in every way the format has, also those an encoder hardly ever takes (escaped partitions, blocks of
 * any size, 32 coefficients, 4 to 32 bits), are read back exactly.
 */
class FlacLawsTest {
    private static final int MOST_BLOCKS = 5;
    private static final int[][] BINOMIAL = {{}, {1}, {2, -1}, {3, -3, 1}, {4, -6, 4, -1}};

    @TempDir
    private Path folder;

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 400);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void what_was_coded_is_read_back(long seed) throws IOException {
        Random random = new Random(seed);
        int bits = 4 + random.nextInt(29);
        int channels = 1 + random.nextInt(random.nextBoolean() ? 2 : 8);
        boolean variable = random.nextBoolean();
        int[] sizes = new int[1 + random.nextInt(MOST_BLOCKS)];
        int size = 1 + random.nextInt(700);
        Arrays.setAll(sizes, i -> variable ? 1 + random.nextInt(random.nextBoolean() ? 40 : 3000) : size);
        int total = Arrays.stream(sizes).sum();
        long[][] samples = new long[channels][];
        Arrays.setAll(samples, c -> draw(random, bits, total));
        FlacBytes bytes = new FlacBytes().header(8000, channels, bits, total);
        int from = 0;
        for (int frame = 0; frame < sizes.length; frame++) {
            int to = from + sizes[frame];
            int channelCode = channels == 2 && random.nextBoolean() ? 8 + random.nextInt(3) : channels - 1;
            bytes.frame(variable, FlacBytes.SIZE_FOLLOWS, 4, channelCode, 0, variable ? from : frame);
            bytes.bits(sizes[frame] - 1L, 16).sum8();
            code(bytes, random, mixed(samples, channelCode, from, to), channelCode, bits);
            bytes.sum16();
            from = to;
        }
        FlacSource source = bytes.source(folder);
        assertEquals(List.of(), source.remarks(), "seed " + seed);
        assertArrayEquals(samples, FlacBytes.samples(source), "seed " + seed);
    }

    /** Noise of full or smaller scale, a slow triangle, or the two extremes; some with unused low bits. */
    private static long[] draw(Random random, int bits, int count) {
        long low = -(1L << bits - 1);
        long high = -low - 1;
        int kind = random.nextInt(5);
        int unused = random.nextInt(4) == 0 ? random.nextInt(bits) : 0;
        int narrow = random.nextInt(bits);
        long[] drawn = new long[count];
        for (int i = 0; i < count; i++) {
            long noise = low + (random.nextLong() >>> 64 - bits);
            long value = switch (kind) {
                case 0 -> noise;
                case 1 -> noise >> narrow;
                case 2 -> low + Math.abs(i * 7L % 400 - 200) * (high / 200) + (noise >> narrow) / 8;
                case 3 -> random.nextBoolean() ? low : high;
                default -> narrow - bits / 2;
            };
            drawn[i] = Math.max(low, Math.min(high, value)) >> unused << unused;
        }
        return drawn;
    }

    private static long[][] mixed(long[][] samples, int channelCode, int from, int to) {
        long[][] block = new long[samples.length][];
        Arrays.setAll(block, c -> Arrays.copyOfRange(samples[c], from, to));
        for (int i = 0; i < to - from && channelCode >= 8; i++) {
            long left = block[0][i];
            long right = block[1][i];
            block[0][i] = channelCode == 8 ? left : channelCode == 9 ? left - right : left + right >> 1;
            block[1][i] = channelCode == 9 ? right : left - right;
        }
        return block;
    }

    private static void code(FlacBytes bytes, Random random, long[][] block, int channelCode, int bits) {
        for (int c = 0; c < block.length; c++) {
            boolean side = channelCode == 9 ? c == 0 : channelCode >= 8 && c == 1;
            channel(bytes, random, block[c], side ? bits + 1 : bits);
        }
    }

    private static void channel(FlacBytes bytes, Random random, long[] samples, int bits) {
        long any = Arrays.stream(samples).reduce(0, (a, b) -> a | b);
        int wasted = any == 0 || random.nextInt(4) == 0 ? 0 : Math.min(bits - 1, Long.numberOfTrailingZeros(any));
        long[] x = Arrays.stream(samples).map(v -> v >> wasted).toArray();
        boolean constant = Arrays.stream(x).allMatch(v -> v == x[0]);
        int order = random.nextInt(Math.min(x.length - 1, random.nextBoolean() ? 4 : 32) + 1);
        boolean linear = order > 4 || order > 0 && random.nextBoolean();
        long[] weights = linear
                ? weights(random, order)
                : Arrays.stream(BINOMIAL[order]).asLongStream().toArray();
        int shift = linear ? 10 + random.nextInt(5) : 0;
        long[] rest = rest(x, weights, shift);
        boolean fits = Arrays.stream(rest).allMatch(v -> Math.abs(v) < 1L << 31);
        if (constant && random.nextBoolean()) {
            head(bytes, 0, wasted).bits(x[0], bits - wasted);
        } else if (fits && random.nextInt(10) > 0) {
            head(bytes, linear ? 31 + order : 8 + order, wasted);
            Arrays.stream(x, 0, order).forEach(v -> bytes.bits(v, bits - wasted));
            if (linear) {
                bytes.bits(13, 4).bits(shift, 5);
                Arrays.stream(weights).forEach(w -> bytes.bits(w, 14));
            }
            residual(bytes, random, rest, order);
        } else {
            head(bytes, 1, wasted);
            Arrays.stream(x).forEach(v -> bytes.bits(v, bits - wasted));
        }
    }

    private static FlacBytes head(FlacBytes bytes, int type, int wasted) {
        bytes.bits(type, 7);
        return wasted == 0 ? bytes.bits(0, 1) : bytes.bits(1, 1).unary(wasted - 1L);
    }

    private static long[] weights(Random random, int order) {
        long[] weights = new long[order];
        Arrays.setAll(weights, i -> (random.nextInt(16_384) - 8192) / (i + 1));
        return weights;
    }

    /** What a prediction leaves; the first values are the samples. */
    private static long[] rest(long[] x, long[] weights, int shift) {
        long[] rest = x.clone();
        for (int i = weights.length; i < x.length; i++) {
            long sum = 0;
            for (int j = 0; j < weights.length; j++) {
                sum += weights[j] * x[i - 1 - j];
            }
            rest[i] = x[i] - (sum >> shift);
        }
        return rest;
    }

    private static void residual(FlacBytes bytes, Random random, long[] rest, int order) {
        int partitionOrder = random.nextInt(7);
        while (rest.length % (1 << partitionOrder) != 0 || rest.length >> partitionOrder < order) {
            partitionOrder--;
        }
        int each = rest.length >> partitionOrder;
        boolean wide = random.nextBoolean();
        bytes.bits(wide ? 1 : 0, 2).bits(partitionOrder, 4);
        for (int from = 0; from < rest.length; from += each) {
            partition(bytes, random, Arrays.copyOfRange(rest, Math.max(from, order), from + each), wide);
        }
    }

    private static void partition(FlacBytes bytes, Random random, long[] rest, boolean wide) {
        long most = Arrays.stream(rest).map(v -> v ^ v >> 63).max().orElse(0);
        int needed = most == 0 && Arrays.stream(rest).allMatch(v -> v == 0) ? 0 : 65 - Long.numberOfLeadingZeros(most);
        int parameterBits = wide ? 5 : 4;
        int escape = (1 << parameterBits) - 1;
        boolean far = needed > escape + 8;
        if (needed < 32 && (far || random.nextInt(3) == 0)) {
            int raw = needed + random.nextInt(32 - needed);
            int used = needed == 0 && random.nextBoolean() ? 0 : raw;
            bytes.bits(escape, parameterBits).bits(used, 5);
            Arrays.stream(rest).forEach(v -> bytes.bits(v, used));
        } else {
            int low = Math.min(escape - 1, Math.max(0, needed - random.nextInt(9)));
            bytes.bits(low, parameterBits);
            Arrays.stream(rest).forEach(v -> bytes.rice(v, low));
        }
    }
}
