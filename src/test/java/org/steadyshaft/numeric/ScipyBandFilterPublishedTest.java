package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * The band filter with a standing band and its change of rate against a symmetric FIR of 8001 taps and resampling through
 * the whole spectrum, on sines inside, on the edge of and outside the band, an offset and noise.
 *
 * <p>Source: SCIPY, SciPy 1.10.1, run here; scipy/recipe.py says how band_filter.csv (scipy.signal.firwin2 from the stated
 * gain, fftconvolve, resample) and band_filter_tails.csv were made. The input is made by the same formula in {@link
 * ScipyInput}; it fades in and out, so no sample need be left out at the ends.
 *
 * <p>Tolerance: pieces of twice the frame hold the impulse response up to half a frame to either side; what lies beyond
 * is partly cut off and folded back. A white input of the same level would so lose lost_rms, root of twice the energy of
 * those taps (the taps fall with the cube of the distance, since the gain's second derivative jumps; the Hann weights
 * make the loss smaller still). The rms difference must not exceed that, no difference five times that. Measured here:
 * rms 7.4e-5, 1.4e-5, 1.0e-6 with frames of 12.8, 25.6, 51.2 periods, at a signal of rms 0.7; a shift by one sample
 * would be 0.1.
 */
class ScipyBandFilterPublishedTest {
    private static final double CENTRE_HZ = 200;
    private static final int SAMPLES = 3000;
    private static final double PEAK_FACTOR = 5;

    @ParameterizedTest
    @CsvSource({"512, 0.25", "512, 1", "512, 4", "1024, 0.25", "1024, 1", "1024, 4", "2048, 0.25", "2048, 1", "2048, 4"
    })
    void standingBand(int frame, double factor) {
        double lost = lostRms(frame);
        double[] out = filtered(frame, factor);
        double squares = 0;
        List<Row> rows = rows(factor);
        for (Row row : rows) {
            double away = row.number("value") - out[row.whole("index")];
            assertEquals(0, away, PEAK_FACTOR * lost, row.toString());
            squares += away * away;
        }
        double rms = Math.sqrt(squares / rows.size());
        assertTrue(rms <= lost, "rms difference " + rms + ", lost in theory " + lost);
    }

    /** What is compared is a strong signal, not silence. */
    @Test
    void theOtherSideHasTheSignal() {
        double squares = 0;
        List<Row> rows = rows(1);
        for (Row row : rows) {
            squares += row.number("value") * row.number("value");
        }
        assertEquals(0.7, Math.sqrt(squares / rows.size()), 0.1, "rms");
    }

    private static List<Row> rows(double factor) {
        List<Row> rows = PublishedTable.rows("scipy/band_filter.csv", row -> row.number("rate_factor") == factor);
        assertTrue(rows.size() >= 750, "rows " + rows.size());
        return rows;
    }

    private static double lostRms(int frame) {
        return PublishedTable.rows("scipy/band_filter_tails.csv", row -> row.whole("frame") == frame)
                .get(0)
                .number("lost_rms");
    }

    private static double[] filtered(int frame, double factor) {
        double[] out = new double[(int) (SAMPLES * factor)];
        BandFilter filter = new BandFilter(
                ScipyInput.RATE_HZ,
                frame,
                factor,
                SAMPLES,
                time -> CENTRE_HZ,
                (samples, count, first) -> System.arraycopy(samples, 0, out, (int) first, count));
        filter.add(ScipyInput.faded(SAMPLES, 7, 500), SAMPLES);
        filter.finish();
        return out;
    }
}
