package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.published.CosineWindow;

/**
 * Windows and short-time spectra against an independent implementation.
 *
 * <p>Source: SCIPY, SciPy 1.10.1, run here; scipy/recipe.py says how windows.csv (scipy.signal.windows, sym=False) and
 * spectra.csv (scipy.signal.spectrogram and stft, Hann, 128 samples, overlapping by half) were made. The input is made by the
 * same formula in {@link ScipyInput}.
 *
 * <p>Tolerance: 5e-13 of weights up to 5, and 1e-12 of amplitudes and powers that are below 1: both sides round at 1e-16,
 * and a transform of 128 samples adds up errors of some ten such steps.
 */
class ScipySpectrumPublishedTest {
    private static final int FRAME = 128;
    private static final int SAMPLES = 1000;

    @ParameterizedTest
    @EnumSource(CosineWindow.class)
    void weights(CosineWindow shape) {
        List<Row> rows = PublishedTable.rows(
                "scipy/windows.csv", row -> row.text("window").equals(shape.name()));
        assertEquals(15 + 16 + 100, rows.size(), "weights of three lengths");
        for (Row row : rows) {
            Window window = Window.of(shape, row.whole("length"));
            assertEquals(row.number("weight"), window.weight(row.whole("index")), 5e-13, row.toString());
        }
    }

    /** One-sided: the power of a bin stands for its twin at the negative frequency too, but for the first and last bin. */
    @Test
    void powerOfCentredFrames() {
        List<double[]> powers = new ArrayList<>();
        Window window = Window.of(CosineWindow.HANN, FRAME);
        RealTransform transform = new RealTransform(FRAME);
        cut((frame, index) -> {
            double[] work = new double[FRAME];
            double[] power = new double[FRAME / 2 + 1];
            window.applyCentred(frame, work);
            transform.forward(work);
            transform.power(work, power);
            powers.add(power);
        });
        for (Row row : rows(powers.size())) {
            int bin = row.whole("bin");
            double sides = bin == 0 || bin == FRAME / 2 ? 1 : 2;
            double found = sides * powers.get(row.whole("frame"))[bin] / (window.sum() * window.sum());
            assertEquals(row.number("power_centred"), found, 1e-12, row.toString());
        }
    }

    /** Real and imaginary parts, so the sign of the exponent and the packing are checked too. */
    @Test
    void spectrumOfPlainFrames() {
        List<double[]> spectra = new ArrayList<>();
        Window window = Window.of(CosineWindow.HANN, FRAME);
        RealTransform transform = new RealTransform(FRAME);
        cut((frame, index) -> {
            double[] work = new double[FRAME];
            window.apply(frame, 0, 0, work);
            transform.forward(work);
            spectra.add(work);
        });
        for (Row row : rows(spectra.size())) {
            double[] packed = spectra.get(row.whole("frame"));
            int bin = row.whole("bin");
            boolean alone = bin == 0 || bin == FRAME / 2;
            double real = bin == FRAME / 2 ? packed[1] : packed[2 * bin];
            double imaginary = alone ? 0 : packed[2 * bin + 1];
            assertEquals(row.number("real"), real / window.sum(), 1e-12, row + " real");
            assertEquals(row.number("imaginary"), imaginary / window.sum(), 1e-12, row + " imaginary");
        }
    }

    private static void cut(FrameCutter.Taker taker) {
        new FrameCutter(FRAME, FRAME / 2, 0, taker).add(ScipyInput.wave(SAMPLES, 1), SAMPLES);
    }

    private static List<Row> rows(int frames) {
        List<Row> rows = PublishedTable.rows("scipy/spectra.csv");
        assertEquals(14, frames, "whole frames of 1000 samples");
        assertEquals(frames * (FRAME / 2 + 1), rows.size(), "every bin of every frame");
        return rows;
    }
}
