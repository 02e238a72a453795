package org.steadyshaft.analysis;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.steadyshaft.signal.ArraySource;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/** Recordings of one channel with samples taken out or bent one by one. */
final class Edited {
    private Edited() {}

    private static SampleSource with(SampleSource source, double[] values) {
        return new ArraySource(source.name(), source.sampleRateHz(), source.format(), values);
    }

    private static double[] read(SampleSource source) {
        try (SampleRange range = new SampleRange(source, 0)) {
            return range.next(Math.toIntExact(source.samples()))[0];
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Each sample replaced by a function of it, rounded to 16 bits. */
    static SampleSource bent(SampleSource source, DoubleUnaryOperator bend) {
        double[] values = read(source);
        for (int i = 0; i < values.length; i++) {
            values[i] = Math.rint(32768 * bend.applyAsDouble(values[i])) / 32768;
        }
        return with(source, values);
    }

    /** As an input behind a capacitor and a resistor records it: the bilinear form of the first-order high-pass, rounded to 16 bits. */
    static SampleSource coupled(SampleSource source, double cornerHz) {
        double[] values = read(source);
        double warped = Math.tan(Math.PI * cornerHz / source.sampleRateHz());
        double keeps = (1 - warped) / (1 + warped);
        double before = 0;
        double out = 0;
        for (int i = 0; i < values.length; i++) {
            out = keeps * out + (values[i] - before) / (1 + warped);
            before = values[i];
            values[i] = Math.rint(32768 * out) / 32768;
        }
        return with(source, values);
    }

    /** Some samples from a time on are missing. */
    static SampleSource without(SampleSource source, double seconds, int samples) {
        double[] values = read(source);
        int at = (int) (seconds * source.sampleRateHz());
        double[] left = IntStream.range(0, values.length - samples)
                .mapToDouble(i -> values[i < at ? i : i + samples])
                .toArray();
        return with(source, left);
    }
}
