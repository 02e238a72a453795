package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.published.CosineWindow;

/**
 * Figures of merit of the windows.
 *
 * <p>Sources: F. J. Harris, On the use of windows for harmonic analysis with the discrete Fourier transform, Proc. IEEE 66(1)
 * 51-83, 1978, Table 1 (window_harris_table1.csv: read in part, the rest memory, all recomputed; rows that disagree with
 * the stated coefficients are left out); G. Heinzel, A. Ruediger, R. Schilling, Spectrum and spectral density estimation by
 * the DFT, 2002, Table 2 (window_heinzel_table.csv: read for these windows, recomputed); the reference page of an
 * equivalent-noise-bandwidth function (window_enbw_symmetric.csv: read, recomputed); window_merit_recomputed.csv: recomputed
 * by the continuous transform.
 *
 * <p>Tolerances, at 4096 samples: gain and noise bandwidth 1e-5 (the table has six digits); losses 0.001 dB and side lobe
 * 0.05 dB (sampled window against continuous one); widths 1e-5 and the rounding of the table; Harris prints two decimals and
 * whole decibels for the side lobe, so 0.005 and 0.5; Heinzel 6e-5, 6e-5 dB and 0.1 dB (his figures are rounded or cut).
 */
class WindowPublishedTest {
    private static final Map<String, CosineWindow> NAMES = Map.of(
            "rectangular", CosineWindow.RECTANGULAR,
            "hann", CosineWindow.HANN,
            "blackman_harris_4_92", CosineWindow.BLACKMAN_HARRIS_4,
            "HFT90D", CosineWindow.FLAT_TOP_90);

    private static final int LENGTH = 4096;

    static List<Row> merits() {
        List<Row> rows = PublishedTable.rows("window_merit_recomputed.csv", WindowPublishedTest::isOurs);
        assertEquals(NAMES.size(), rows.size(), "each of our windows");
        return rows;
    }

    static List<Row> harris() {
        return PublishedTable.rows(
                "window_harris_table1.csv",
                row -> isOurs(row) && row.text("agrees_within_rounding").equals("yes"));
    }

    static List<Row> heinzel() {
        return PublishedTable.rows("window_heinzel_table.csv", WindowPublishedTest::isOurs);
    }

    static List<Row> noiseBandwidthPage() {
        return PublishedTable.rows("window_enbw_symmetric.csv", WindowPublishedTest::isOurs);
    }

    @ParameterizedTest
    @MethodSource("merits")
    void meritsOfTheContinuousWindow(Row row) {
        WindowFigures figures = figures(row);
        for (String figure : List.of("coherent_gain", "enbw_bins")) {
            assertEquals(row.number(figure), figures.of(figure), 1e-5, row + " " + figure);
        }
        for (String figure :
                List.of("scalloping_loss_db", "processing_loss_db", "worst_case_loss_db", "worst_half_bin_error_db")) {
            assertEquals(row.number(figure), figures.of(figure), 0.001, row + " " + figure);
        }
        for (String figure : List.of("bw_half_power_bins", "bw_6db_bins")) {
            assertEquals(row.number(figure), figures.of(figure), 1e-5 + row.halfUnit(figure), row + " " + figure);
        }
        String sideLobe = "highest_sidelobe_db";
        assertEquals(row.number(sideLobe), figures.of(sideLobe), 0.05, row + " " + sideLobe);
    }

    @ParameterizedTest
    @MethodSource("harris")
    void tableOfHarris(Row row) {
        String figure = row.text("figure");
        double found = figures(row).of(figure);
        boolean sideLobe = figure.equals("highest_sidelobe_db");
        assertEquals(row.number("harris_printed"), found, sideLobe ? 0.5 : 0.005, row + " printed " + figure);
        assertEquals(row.number("recomputed"), found, sideLobe ? 0.05 : 0.001, row + " recomputed " + figure);
    }

    @ParameterizedTest
    @MethodSource("heinzel")
    void tableOfHeinzel(Row row) {
        String figure = row.text("figure");
        double found = figures(row).of(figure);
        if (figure.equals("worst_half_bin_error_db")) {
            found = Math.abs(found);
        }
        double allowed = figure.equals("highest_sidelobe_db") ? 0.1 : 6e-5;
        assertEquals(row.number("published"), found, allowed, row + " " + figure);
    }

    /** The periodic window, not the symmetric one, which the page prints and which differs in the third digit. */
    @ParameterizedTest
    @MethodSource("noiseBandwidthPage")
    void noiseBandwidthIsThatOfThePeriodicForm(Row row) {
        Window window = Window.of(NAMES.get(row.text("window")), row.whole("length"));
        double unitHz = row.text("unit").equals("Hz") ? row.number("fs_hz") / row.whole("length") : 1;
        double found = window.noiseBandwidthBins() * unitHz;
        assertEquals(row.number("recomputed_periodic"), found, 1e-6 * found, row.toString());
        assertTrue(Math.abs(row.number("published_symmetric") - found) > 1e-3 * found, "the two forms differ");
    }

    /** The coefficients themselves, to the last digit; from memory, confirmed by the figures above. */
    @Test
    void coefficientsAreThoseOfTheTable() {
        List<Row> rows = PublishedTable.rows("window_coefficients.csv", WindowPublishedTest::isOurs);
        int terms = NAMES.values().stream().mapToInt(CosineWindow::terms).sum();
        assertEquals(terms, rows.size(), "terms of our windows");
        for (Row row : rows) {
            double found = NAMES.get(row.text("window")).coefficient(row.whole("term"));
            assertEquals(row.number("coefficient"), found, row.toString());
        }
    }

    /** Over a whole number of periods the sums have closed forms, at any length above twice the highest term. */
    @Test
    void sumsFollowFromTheCoefficients() {
        for (CosineWindow shape : CosineWindow.values()) {
            for (int length : new int[] {11, 12, 100, 1001}) {
                double squares = shape.coefficient(0) * shape.coefficient(0);
                for (int k = 1; k < shape.terms(); k++) {
                    squares += 0.5 * shape.coefficient(k) * shape.coefficient(k);
                }
                Window window = Window.of(shape, length);
                assertEquals(length, window.length());
                assertEquals(shape.coefficient(0) * length, window.sum(), 1e-12 * length, shape + " sum");
                assertEquals(squares * length, window.sumOfSquares(), 1e-12 * length, shape + " squares");
            }
        }
    }

    private static boolean isOurs(Row row) {
        return NAMES.containsKey(row.text("window"));
    }

    private static WindowFigures figures(Row row) {
        return new WindowFigures(Window.of(NAMES.get(row.text("window")), LENGTH));
    }
}
