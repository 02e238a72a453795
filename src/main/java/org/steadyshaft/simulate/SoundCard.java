package org.steadyshaft.simulate;

import java.io.IOException;
import java.util.OptionalDouble;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * What a sound card makes of a voltage: its input blocks what is slow (one pole), its gain brings the voltage to full scale
 * 1, what is beyond is cut, and buffers may get lost. The clock's error belongs to the source, the bits to the writer.
 */
public final class SoundCard extends AlteredSource {
    /** Samples in one lost buffer (common practice). */
    private static final int BUFFER_SAMPLES = 512;

    private final double highPassHz;
    private final double fullScaleVolts;
    private final DoubleSeries lostSeconds;

    /**
     * @param volts the voltage, at the card's own clock
     * @param highPassHz corner of the input; 0 for none
     * @param fullScaleVolts voltage that reaches full scale
     * @param lostSeconds times at which a buffer is lost, increasing
     */
    public SoundCard(SampleSource volts, double highPassHz, double fullScaleVolts, DoubleSeries lostSeconds) {
        super(volts);
        if (!(highPassHz >= 0) || !(fullScaleVolts > 0)) {
            throw new IllegalArgumentException("high-pass " + highPassHz + " Hz, full scale " + fullScaleVolts + " V");
        }
        this.highPassHz = highPassHz;
        this.fullScaleVolts = fullScaleVolts;
        this.lostSeconds = lostSeconds;
    }

    @Override
    public long samples() {
        return source.samples() - (long) BUFFER_SAMPLES * lostSeconds.size();
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "simulated",
                "numbers",
                "FS",
                OptionalDouble.of(1),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public BlockReader open() throws IOException {
        return new Reader(source.open());
    }

    private final class Reader implements BlockReader {
        private final BlockReader in;
        private final double[][] raw = new double[channels()][BUFFER_SAMPLES];
        private final double[] slow = new double[channels()];
        private final double pole = highPassHz == 0 ? 0 : 1 - Math.exp(-2 * Math.PI * highPassHz / sampleRateHz());
        private int filled;
        private int used;
        private long taken;
        private int lost;

        Reader(BlockReader in) {
            this.in = in;
        }

        @Override
        public int read(double[][] block) throws IOException {
            int count = 0;
            while (count < block[0].length && (used < filled || refill())) {
                for (int c = 0; c < block.length; c++) {
                    slow[c] += pole * (raw[c][used] - slow[c]);
                    double level = (raw[c][used] - slow[c]) / fullScaleVolts;
                    block[c][count] = Math.max(-1, Math.min(1, level));
                }
                used++;
                count++;
            }
            return count;
        }

        private boolean refill() throws IOException {
            used = 0;
            filled = in.read(raw);
            boolean drop = lost < lostSeconds.size()
                    && filled == BUFFER_SAMPLES
                    && taken >= lostSeconds.get(lost) * sampleRateHz();
            taken += filled;
            if (drop) {
                lost++;
                filled = in.read(raw);
                taken += filled;
            }
            return filled > 0;
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
