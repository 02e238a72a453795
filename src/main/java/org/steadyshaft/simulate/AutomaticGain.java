package org.steadyshaft.simulate;

import java.io.IOException;
import java.util.Arrays;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * A recorder's automatic gain: it follows the level, fast when it is too high and slowly when it is too low, so that every recording
 * comes out equally loud and the level tells nothing any more. Each channel has its own.
 */
public final class AutomaticGain extends AlteredSource {
    /** The gain falls in some tens of milliseconds (common practice). */
    private static final double ATTACK_SECONDS = 0.03;

    /** A level below this share of the target is taken for silence, and the gain rises no further. */
    private static final double QUIETEST = 0.01;

    private final double target;
    private final double releaseSeconds;

    /**
     * @param source to be levelled
     * @param target level that peaks are brought to, in the unit of the samples
     * @param releaseSeconds in which the gain recovers
     */
    public AutomaticGain(SampleSource source, double target, double releaseSeconds) {
        super(source);
        if (!(target > 0) || !(releaseSeconds > 0)) {
            throw new IllegalArgumentException(
                    "automatic gain to " + target + " in " + releaseSeconds + " s; expected above 0");
        }
        this.target = target;
        this.releaseSeconds = releaseSeconds;
    }

    @Override
    public BlockReader open() throws IOException {
        return new Reader(source.open());
    }

    private final class Reader implements BlockReader {
        private final BlockReader in;
        private final double[] level = new double[source.channels()];
        private final double up = 1 - Math.exp(-1 / (ATTACK_SECONDS * source.sampleRateHz()));
        private final double down = 1 - Math.exp(-1 / (releaseSeconds * source.sampleRateHz()));

        Reader(BlockReader in) {
            this.in = in;
            Arrays.fill(level, target);
        }

        @Override
        public int read(double[][] block) throws IOException {
            int count = in.read(block);
            for (int c = 0; c < block.length; c++) {
                for (int i = 0; i < count; i++) {
                    double size = Math.abs(block[c][i]);
                    level[c] += (size > level[c] ? up : down) * (size - level[c]);
                    block[c][i] *= target / Math.max(QUIETEST * target, level[c]);
                }
            }
            return count;
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
