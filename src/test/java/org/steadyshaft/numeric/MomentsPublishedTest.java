package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Mean and standard deviation of the univariate Statistical Reference Datasets, and the spread of the uranium values.
 *
 * <p>Sources: NIST Information Technology Laboratory, Statistical Reference Datasets, univariate summary statistics: Lew,
 * Lottery, Mavro, Michelso, NumAcc1-4 (strd_*.csv, strd_numacc_rule.json; read, recomputed exactly); G. Tietjen, R. Moore,
 * Technometrics 14(3) 583-597, 1972 (robust_tietjen_moore.csv, robust_values.csv; read, recomputed).
 *
 * <p>Tolerances: relative 1e-12; the standard deviation of NumAcc3 1e-8 and of NumAcc4 1e-7, because their values are not
 * doubles and the deviation is 1e-7 and 1e-8 of the mean (a one-pass sum of squares fails there altogether).
 */
class MomentsPublishedTest {
    static List<Row> certified() {
        List<Row> rows = PublishedTable.rows(
                "strd_univariate_certified.csv",
                row -> row.text("statistic").equals("mean")
                        || row.text("statistic").equals("sample_std"));
        assertEquals(16, rows.size(), "two figures of eight sets");
        return rows;
    }

    @ParameterizedTest
    @MethodSource("certified")
    void certifiedFigure(Row row) {
        String set = row.text("dataset");
        Moments moments = moments(values(set));
        assertEquals(row.whole("n"), moments.count(), "values of " + set);
        boolean mean = row.text("statistic").equals("mean");
        double expected = row.number("recomputed_exact");
        double allowed = mean ? 1e-12 : deviationTolerance(set);
        double found = mean ? moments.mean() : moments.deviation();
        assertEquals(expected, found, allowed * Math.abs(expected), set + " " + row.text("statistic"));
        assertEquals(row.number("certified"), found, (allowed + 1e-14) * Math.abs(expected), set + " as certified");
        if (!mean) {
            double shrink = Math.sqrt((moments.count() - 1.0) / moments.count());
            assertEquals(expected * shrink, moments.rms(), allowed * expected, set + " with divisor n");
        }
    }

    @Test
    void spreadOfTheUraniumValues() {
        Row row = PublishedTable.rows(
                        "robust_values.csv", r -> r.text("quantity").equals("tietjen_moore sample std"))
                .get(0);
        double found =
                moments(PublishedTable.column("robust_tietjen_moore.csv", "y")).deviation();
        assertEquals(row.number("recomputed"), found, 1e-9);
        assertEquals(row.number("published"), found, row.halfUnit("published"));
    }

    private static double deviationTolerance(String set) {
        return switch (set) {
            case "numacc3" -> 1e-8;
            case "numacc4" -> 1e-7;
            default -> 1e-12;
        };
    }

    private static Moments moments(double[] values) {
        Moments moments = new Moments();
        for (double value : values) {
            moments.add(value);
        }
        return moments;
    }

    private static double[] values(String set) {
        if (!set.startsWith("numacc")) {
            return PublishedTable.column("strd_" + set + ".csv", "y");
        }
        JsonNode rule = PublishedTable.json("strd_numacc_rule.json").get(set);
        if (rule.isArray()) {
            double[] values = new double[rule.size()];
            for (int i = 0; i < values.length; i++) {
                values[i] = rule.get(i).asDouble();
            }
            return values;
        }
        double[] values = new double[1001];
        values[0] = rule.get("first").asDouble();
        for (int i = 1; i < values.length; i++) {
            values[i] = rule.get("then_repeat_500_times").get((i - 1) % 2).asDouble();
        }
        return values;
    }
}
