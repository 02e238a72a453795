package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.OptionalDouble;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/** A recording rounded to so many bits of a full scale, and cut there, as a recorder does. */
final class Quantised extends AlteredSource {
    private final int bits;
    private final double fullScale;

    Quantised(SampleSource source, int bits, double fullScale) {
        super(source);
        this.bits = bits;
        this.fullScale = fullScale;
    }

    private double step() {
        return fullScale / (1L << (bits - 1));
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "made",
                bits + " bit",
                "FS",
                OptionalDouble.of(fullScale),
                OptionalDouble.of(step()),
                source.format().kind());
    }

    @Override
    public BlockReader open() throws IOException {
        BlockReader in = source.open();
        return new BlockReader() {
            @Override
            public int read(double[][] block) throws IOException {
                int count = in.read(block);
                for (double[] channel : block) {
                    for (int i = 0; i < count; i++) {
                        double level = Math.max(-fullScale, Math.min(fullScale - step(), channel[i]));
                        channel[i] = step() * Math.rint(level / step());
                    }
                }
                return count;
            }

            @Override
            public void close() throws IOException {
                in.close();
            }
        };
    }
}
