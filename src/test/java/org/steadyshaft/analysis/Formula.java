package org.steadyshaft.analysis;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/** A recording of 16 bits at 16 kHz over 8 s or another time, made of one formula a channel. */
record Formula(double seconds, List<DoubleUnaryOperator> formulas) implements SampleSource {
    static final double RATE_HZ = 16000;
    static final double SECONDS = 8;

    static SampleSource of(DoubleUnaryOperator... channels) {
        return new Formula(SECONDS, List.of(channels));
    }

    static SampleSource lasting(double seconds, DoubleUnaryOperator channel) {
        return new Formula(seconds, List.of(channel));
    }

    static DoubleUnaryOperator tone(double hz, double peak) {
        return t -> peak * Math.sin(2 * Math.PI * hz * t);
    }

    static DoubleUnaryOperator noise(long seed, double rms) {
        Random random = new Random(seed);
        return t -> rms * random.nextGaussian();
    }

    @Override
    public String name() {
        return "formula";
    }

    @Override
    public double sampleRateHz() {
        return RATE_HZ;
    }

    @Override
    public long samples() {
        return (long) (RATE_HZ * seconds);
    }

    @Override
    public int channels() {
        return formulas.size();
    }

    @Override
    public String channelName(int channel) {
        return Integer.toString(channel + 1);
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "made",
                "16 bit",
                "FS",
                OptionalDouble.of(1),
                OptionalDouble.of(1 / 32768.0),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return List.of();
    }

    @Override
    public BlockReader open() {
        return new BlockReader() {
            private long at;

            @Override
            public int read(double[][] block) {
                int count = (int) Math.min(block[0].length, samples() - at);
                for (int i = 0; i < count; i++, at++) {
                    for (int c = 0; c < block.length; c++) {
                        double value = formulas.get(c).applyAsDouble(at / RATE_HZ);
                        block[c][i] = Math.max(-32768, Math.min(32767, Math.rint(32768 * value))) / 32768;
                    }
                }
                return count;
            }

            @Override
            public void close() {
                // nothing is held open
            }
        };
    }
}
