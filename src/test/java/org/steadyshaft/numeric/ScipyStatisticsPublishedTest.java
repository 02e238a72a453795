package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Line fit and robust statistics against an independent implementation, of odd and even counts.
 *
 * <p>Source: SCIPY, SciPy 1.10.1 and NumPy 1.24.2, run here; scipy/recipe.py says how statistics.csv and running_median.csv
 * were made (linregress, median, median_abs_deviation, ndimage.median_filter).
 *
 * <p>Tolerance: 1e-12 for the line, whose sums of 300 products round at 1e-16 each; 1e-14 for medians, which only pick values
 * of up to 20 and may round the mean of two; sigma relative 1e-12, since both sides carry the factor to all digits.
 */
class ScipyStatisticsPublishedTest {
    private static final int COUNT = 300;
    private static final int HALF_WIDTH = 7;

    static List<Row> figures() {
        return PublishedTable.rows("scipy/statistics.csv");
    }

    @ParameterizedTest
    @MethodSource("figures")
    void figure(Row row) {
        String quantity = row.text("quantity");
        double[] y = values();
        String[] words = quantity.split("_");
        double allowed = quantity.startsWith("median") || quantity.startsWith("mad") ? 1e-14 : 1e-12;
        double found = switch (words[0]) {
            case "intercept" -> line().intercept();
            case "slope" -> words.length == 1 ? line().slope() : line().slopeError();
            case "median" -> Robust.median(Arrays.copyOf(y, Integer.parseInt(words[1])));
            case "mad" -> Robust.medianAbsoluteDeviation(Arrays.copyOf(y, Integer.parseInt(words[1])));
            case "sigma" -> Robust.sigma(Arrays.copyOf(y, Integer.parseInt(words[1])));
            default -> throw new AssertionError(row + ": unknown " + quantity);
        };
        assertEquals(row.number("value"), found, allowed, quantity);
    }

    @Test
    void runningMedian() {
        double[] medians = Robust.runningMedian(values(), HALF_WIDTH);
        List<Row> rows = PublishedTable.rows("scipy/running_median.csv");
        assertEquals(COUNT - 2 * HALF_WIDTH, rows.size(), "whole windows");
        for (Row row : rows) {
            assertEquals(row.number("value"), medians[row.whole("index")], 1e-14, row.toString());
        }
    }

    private static LineFit line() {
        double[] x = new double[COUNT];
        Arrays.setAll(x, i -> i / 10.0);
        return LineFit.of(x, values());
    }

    private static double[] values() {
        double[] y = ScipyInput.noise(COUNT, 11);
        for (int i = 0; i < COUNT; i++) {
            y[i] = 2.5 - 0.7 * (i / 10.0) + 3 * y[i] * y[i] * y[i];
        }
        return y;
    }
}
