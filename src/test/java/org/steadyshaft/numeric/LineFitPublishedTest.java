package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * The line through the Norris data.
 *
 * <p>Source: NIST Information Technology Laboratory, Statistical Reference Datasets, linear regression, Norris
 * (strd_norris_data.csv, strd_norris_certified.csv; read, recomputed exactly).
 *
 * <p>Tolerance: relative 1e-11, as the notes on the table ask: some digits are lost in differences of sums.
 */
class LineFitPublishedTest {
    @ParameterizedTest
    @CsvSource({"intercept", "slope", "slope_std_error"})
    void certifiedFigure(String quantity) {
        LineFit line = LineFit.of(
                PublishedTable.column("strd_norris_data.csv", "x"), PublishedTable.column("strd_norris_data.csv", "y"));
        double found = switch (quantity) {
            case "intercept" -> line.intercept();
            case "slope" -> line.slope();
            default -> line.slopeError();
        };
        Row row = certified(quantity);
        double expected = row.number("recomputed_exact");
        assertEquals(expected, found, 1e-11 * Math.abs(expected), quantity);
        assertEquals(row.number("certified"), found, 1e-11 * Math.abs(expected), quantity + " as certified");
    }

    /** The residuals of the fitted line have the certified sum of squares, so the line's values are right too. */
    @Test
    void residualSumOfSquares() {
        double[] x = PublishedTable.column("strd_norris_data.csv", "x");
        double[] y = PublishedTable.column("strd_norris_data.csv", "y");
        LineFit line = LineFit.of(x, y);
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double away = y[i] - line.at(x[i]);
            squares += away * away;
        }
        assertEquals(36, x.length, "points");
        double expected = certified("residual_sum_squares").number("recomputed_exact");
        assertEquals(expected, squares, 1e-11 * expected);
    }

    private static Row certified(String quantity) {
        return PublishedTable.rows(
                        "strd_norris_certified.csv", row -> row.text("quantity").equals(quantity))
                .get(0);
    }
}
