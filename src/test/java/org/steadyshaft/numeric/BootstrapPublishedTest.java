package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Standard errors of the ideal bootstrap (infinitely many replications) of the mouse survival days, bootstrap_mouse_values.csv.
 *
 * <p>Source: B. Efron, R. J. Tibshirani, An Introduction to the Bootstrap, 1993, ch. 2 (data read in public test suites; printed
 * figures from memory; recomputed exactly).
 *
 * <p>Tolerance: four times the Monte Carlo error of a standard deviation from B = 100,000 replicates, s sqrt((k - 1) / (4 B)) with
 * their own kurtosis k; it must itself be below 3 %, and below 1.2 % for the means.
 */
class BootstrapPublishedTest {
    private static final int REPLICATIONS = 100_000;
    private static final String IDEAL = "ideal_bootstrap_se_";

    static List<Row> ideal() {
        return PublishedTable.rows(
                "bootstrap_mouse_values.csv", row -> row.text("quantity").startsWith(IDEAL));
    }

    @ParameterizedTest
    @MethodSource("ideal")
    void idealStandardError(Row row) {
        String quantity = row.text("quantity").substring(IDEAL.length());
        double[] replicates = switch (quantity) {
            case "mean_treatment" -> replicates("treatment", 1, BootstrapPublishedTest::mean);
            case "median_treatment" -> replicates("treatment", 2, Robust::median);
            case "mean_control" -> replicates("control", 3, BootstrapPublishedTest::mean);
            case "median_control" -> replicates("control", 4, Robust::median);
            case "difference_of_means" -> meanDifferences();
            default -> throw new AssertionError("no such figure here: " + row);
        };
        double found = Math.sqrt(centralMoment(replicates, 2));
        double kurtosis = centralMoment(replicates, 4) / Math.pow(found, 4);
        double allowed = 4 * found * Math.sqrt((kurtosis - 1) / (4 * REPLICATIONS));
        double expected = row.number("recomputed");
        assertTrue(allowed < (quantity.contains("mean") ? 0.012 : 0.03) * expected, quantity + " within " + allowed);
        assertEquals(expected, found, allowed, quantity);
        if (row.has("published")) {
            assertEquals(row.number("published"), expected, row.halfUnit("published"), quantity + " as printed");
        }
    }

    private static double[] replicates(String group, long seed, ToDoubleFunction<double[]> statistic) {
        BootstrapReplicates made = new BlockBootstrap(1, REPLICATIONS, seed).resample(days(group), statistic);
        double[] replicates = new double[made.count()];
        Arrays.setAll(replicates, made::get);
        assertEquals(Math.sqrt(centralMoment(replicates, 2)), made.standardError(), 1e-4 * made.standardError());
        return replicates;
    }

    private static double[] meanDifferences() {
        double[] treatment = replicates("treatment", 5, BootstrapPublishedTest::mean);
        double[] control = replicates("control", 6, BootstrapPublishedTest::mean);
        Arrays.setAll(treatment, i -> treatment[i] - control[i]);
        return treatment;
    }

    static double[] days(String group) {
        return PublishedTable.rows(
                        "bootstrap_mouse.csv", row -> row.text("group").equals(group))
                .stream()
                .mapToDouble(row -> row.number("days"))
                .toArray();
    }

    static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }

    private static double centralMoment(double[] values, int order) {
        double centre = mean(values);
        return mean(Arrays.stream(values)
                .map(value -> Math.pow(value - centre, order))
                .toArray());
    }
}
