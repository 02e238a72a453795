package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.published.RobustConstants;

/**
 * Median, median absolute deviation and what is judged by them, robust_values.csv and robust_hampel_vector.csv.
 *
 * <p>Sources: F. R. Hampel, The influence curve and its role in robust estimation, JASA 69, 383-393, 1974 (memory; factor
 * recomputed; the vector is constructed); B. Iglewicz, D. Hoaglin, How to Detect and Handle Outliers, 1993 (memory;
 * recomputed); the tutorial sample 1 1 2 2 4 6 9 (read in four public libraries); G. Tietjen, R. Moore, Technometrics 14(3)
 * 583-597, 1972 and B. Rosner, Technometrics 25(2) 165-172, 1983 (data read, figures recomputed).
 *
 * <p>Tolerance: 1e-9 against the recomputed figures; printed figures half a unit of their last digit.
 */
class RobustPublishedTest {
    private static final double[] TUTORIAL = {1, 1, 2, 2, 4, 6, 9};

    /** Limit of the modified z-score of Iglewicz and Hoaglin. */
    private static final double Z_LIMIT = 3.5;

    /** All but the Grubbs rows (no such test here) and the sample deviation, which MomentsPublishedTest checks. */
    static List<Row> values() {
        List<Row> rows = PublishedTable.rows(
                "robust_values.csv",
                row -> !row.text("quantity").contains("grubbs")
                        && !row.text("quantity").endsWith("sample std"));
        assertEquals(12, rows.size(), "rows that apply");
        return rows;
    }

    @ParameterizedTest
    @MethodSource("values")
    void value(Row row) {
        double found = figure(row.text("quantity"));
        assertEquals(row.number("recomputed"), found, 1e-9, row.text("quantity"));
        if (row.has("published")) {
            assertEquals(row.number("published"), found, row.halfUnit("published"), row.text("quantity"));
        }
    }

    /** The vector has a window median wherever the whole window of 3 to each side fits. */
    @Test
    void runningMedianOfTheVector() {
        double[] medians = Robust.runningMedian(PublishedTable.column("robust_hampel_vector.csv", "y"), 3);
        List<Row> tested = PublishedTable.rows("robust_hampel_vector.csv", row -> row.has("window_median"));
        double[] expected =
                tested.stream().mapToDouble(row -> row.number("window_median")).toArray();
        double[] found =
                tested.stream().mapToDouble(row -> medians[row.whole("i")]).toArray();
        assertArrayEquals(expected, found, 1e-12);
    }

    /** A value stands out when it lies more than three robust deviations from the median of its window. */
    @Test
    void outliersOfTheVector() {
        double[] y = PublishedTable.column("robust_hampel_vector.csv", "y");
        for (Row row : PublishedTable.rows("robust_hampel_vector.csv", r -> r.has("outlier_3_sigma"))) {
            int i = row.whole("i");
            double[] window = Arrays.copyOfRange(y, i - 3, i + 4);
            double sigma = Robust.sigma(window);
            assertEquals(row.number("window_scaled_mad"), sigma, 1e-9, row.toString());
            boolean out = Math.abs(y[i] - Robust.median(window)) > 3 * sigma;
            assertEquals(row.text("outlier_3_sigma").equals("1"), out, row.toString());
        }
    }

    private static double figure(String quantity) {
        return switch (quantity) {
            case "mad_normal_consistency_factor" -> RobustConstants.MAD_TO_SIGMA;
            case "inverse_factor" -> 1 / RobustConstants.MAD_TO_SIGMA;
            case "median of 1 1 2 2 4 6 9" -> Robust.median(TUTORIAL);
            case "mad of 1 1 2 2 4 6 9" -> Robust.medianAbsoluteDeviation(TUTORIAL);
            case "scaled mad of 1 1 2 2 4 6 9" -> Robust.sigma(TUTORIAL);
            default -> figure(quantity.substring(0, quantity.indexOf(' ')), quantity);
        };
    }

    private static double figure(String set, String quantity) {
        double[] y = PublishedTable.column("robust_" + set + ".csv", "y");
        return switch (quantity.substring(set.length() + 1)) {
            case "median" -> Robust.median(y);
            case "mad" -> Robust.medianAbsoluteDeviation(y);
            case "largest modified z" -> Arrays.stream(modifiedZ(y)).max().orElseThrow();
            case "count with |modified z| > 3.5" ->
                Arrays.stream(modifiedZ(y)).filter(z -> z > Z_LIMIT).count();
            default -> throw new AssertionError("unknown figure " + quantity);
        };
    }

    private static double[] modifiedZ(double[] y) {
        double median = Robust.median(y);
        double sigma = Robust.sigma(y);
        return Arrays.stream(y).map(v -> Math.abs(v - median) / sigma).toArray();
    }
}
