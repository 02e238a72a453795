package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Two-sample t test of the car mileages, ttest_auto83b.csv, and of the mouse survival days, bootstrap_mouse_values.csv.
 *
 * <p>Sources: NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.3, AUTO83B.DAT (data read in a mirror; figures part read, part
 * memory, all recomputed); B. Efron, R. J. Tibshirani, An Introduction to the Bootstrap, 1993, ch. 2 (data read in public test
 * suites, printed figures from memory, all recomputed). The pooled test is not in the program: its formula stands here, on the
 * program's means and deviations.
 *
 * <p>Tolerance: relative 1e-9 to the recomputed figures; one unit of the last digit to the printed ones (the printed deviation of the
 * US cars is off by 0.66 units).
 */
class WelchPublishedTest {
    static List<Row> cars() {
        return PublishedTable.rows("ttest_auto83b.csv");
    }

    static List<Row> mice() {
        return PublishedTable.rows(
                "bootstrap_mouse_values.csv", row -> !row.text("quantity").matches("ideal_bootstrap.*|exhaustive.*"));
    }

    @ParameterizedTest
    @MethodSource("cars")
    void carMileages(Row row) {
        compare(row, carFigure(row.text("quantity"), group("us"), group("japan")));
    }

    private static double carFigure(String quantity, double[] us, double[] japan) {
        TwoMeans welch = TwoMeans.of(MeanEstimate.ofValues(us), MeanEstimate.ofValues(japan));
        return switch (quantity) {
            case "n_us" -> us.length;
            case "n_japan" -> japan.length;
            case "mean_us" -> MeanEstimate.ofValues(us).mean();
            case "mean_japan" -> MeanEstimate.ofValues(japan).mean();
            case "sd_us" -> Math.sqrt(variance(us));
            case "sd_japan" -> Math.sqrt(variance(japan));
            case "difference" -> welch.difference();
            case "welch_se" -> welch.standardError();
            case "welch_t" -> welch.statistic();
            case "welch_df" -> welch.degrees();
            case "welch_ci95_low" -> welch.interval(0.95).low();
            case "welch_ci95_high" -> welch.interval(0.95).high();
            case "pooled_sd" -> pooledDeviation(us, japan);
            case "pooled_se" -> pooledError(us, japan);
            case "pooled_t" -> welch.difference() / pooledError(us, japan);
            case "pooled_df" -> us.length + japan.length - 2;
            case "variance_ratio_F" -> variance(us) / variance(japan);
            case "t_0.975_326" -> TDistribution.of(326).inverseCumulativeProbability(0.975);
            default -> throw new AssertionError("no such figure here: " + quantity);
        };
    }

    @ParameterizedTest
    @MethodSource("mice")
    void mouseDays(Row row) {
        MeanEstimate treatment = MeanEstimate.ofValues(BootstrapPublishedTest.days("treatment"));
        MeanEstimate control = MeanEstimate.ofValues(BootstrapPublishedTest.days("control"));
        TwoMeans welch = TwoMeans.of(treatment, control);
        compare(
                row,
                switch (row.text("quantity")) {
                    case "mean_treatment" -> treatment.mean();
                    case "mean_control" -> control.mean();
                    case "se_treatment" -> treatment.standardError();
                    case "se_control" -> control.standardError();
                    case "difference" -> welch.difference();
                    case "se_difference" -> welch.standardError();
                    case "welch_t" -> welch.statistic();
                    case "welch_df" -> welch.degrees();
                    case "welch_p_two_sided" -> welch.pValue();
                    default -> throw new AssertionError("no such figure here: " + row);
                });
    }

    private static void compare(Row row, double found) {
        double expected = row.number("recomputed");
        assertEquals(expected, found, 1e-9 * Math.abs(expected), row + " " + row.text("quantity"));
        if (row.has("published")) {
            assertEquals(row.number("published"), found, 2 * row.halfUnit("published"), row + " as printed");
        }
    }

    private static double[] group(String name) {
        return PublishedTable.rows(
                        "handbook_auto83b.csv", row -> row.text("group").equals(name))
                .stream()
                .mapToDouble(row -> row.number("mpg"))
                .toArray();
    }

    private static double variance(double[] values) {
        return Math.pow(MeanEstimate.ofValues(values).standardError(), 2) * values.length;
    }

    private static double pooledDeviation(double[] a, double[] b) {
        return Math.sqrt(((a.length - 1) * variance(a) + (b.length - 1) * variance(b)) / (a.length + b.length - 2));
    }

    private static double pooledError(double[] a, double[] b) {
        return pooledDeviation(a, b) * Math.sqrt(1.0 / a.length + 1.0 / b.length);
    }
}
