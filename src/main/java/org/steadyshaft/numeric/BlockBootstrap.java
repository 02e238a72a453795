package org.steadyshaft.numeric;

import java.util.Random;
import java.util.function.ToDoubleFunction;

/**
 * Spread of a statistic of a series whose neighbours are alike: the series is put together anew from blocks of itself, drawn with
 * replacement, and the statistic is taken of each such series.
 *
 * <p>Blocks begin anywhere with equal chance and run on from the end to the beginning (circular), so every value is drawn equally
 * often; the last block is cut to the length of the series. A block of 1 is the bootstrap of independent values. Blocks should be
 * several correlation times long ({@link CorrelationTime}), six for example: between them likeness is lost, and the variance of a
 * mean comes out too small by about half the ratio of correlation time to block (8 % with six). Fewer than about ten
 * blocks make the spread itself uncertain.
 *
 * <p>Repeatable: java.util.Random is laid down to the last bit, so the same seed gives the same numbers on every JDK. Cost:
 * replications times the statistic and a copy of the series.
 *
 * <p>Sources, from memory: B. Efron, Annals of Statistics 7 (1979) 1-26; H. R. Kuensch, Annals of Statistics 17 (1989) 1217-1241;
 * D. N. Politis, J. P. Romano, A circular block-resampling procedure for stationary data (1992).
 */
public final class BlockBootstrap {
    private final int blockLength;
    private final int replications;
    private final long seed;

    /**
     * @param blockLength values in a block; at least 1
     * @param replications series put together; at least 2
     */
    public BlockBootstrap(int blockLength, int replications, long seed) {
        if (blockLength < 1 || replications < 2) {
            throw new IllegalArgumentException("blocks of " + blockLength + ", " + replications
                    + " replications; expected blocks of 1 or more, 2 replications or more");
        }
        this.blockLength = blockLength;
        this.replications = replications;
        this.seed = seed;
    }

    /**
     * @param values finite, at least two blocks of them; left as they are
     * @param statistic of a series as long as the values, finite; it may change the array that it gets
     * @throws IllegalArgumentException with too few values, or a statistic that is not finite
     */
    public BootstrapReplicates resample(double[] values, ToDoubleFunction<double[]> statistic) {
        int count = values.length;
        if (count < 2L * blockLength) {
            throw new IllegalArgumentException(
                    count + " values; expected " + 2L * blockLength + " or more, two blocks");
        }
        double[] circle = new double[count + blockLength];
        System.arraycopy(values, 0, circle, 0, count);
        System.arraycopy(values, 0, circle, count, blockLength);
        Random random = new Random(seed);
        double[] replicates = new double[replications];
        for (int i = 0; i < replications; i++) {
            double[] series = new double[count];
            for (int at = 0; at < count; at += blockLength) {
                int length = Math.min(blockLength, count - at);
                System.arraycopy(circle, random.nextInt(count), series, at, length);
            }
            replicates[i] = statistic.applyAsDouble(series);
        }
        return new BootstrapReplicates(statistic.applyAsDouble(values.clone()), replicates, count, blockLength);
    }
}
