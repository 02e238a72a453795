package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Exact limits for a Poisson count, poisson_exact_ci.csv.
 *
 * <p>Source: F. Garwood, Fiducial limits for the Poisson distribution, Biometrika 28, 437-442, 1936. The printed limits for 0
 * and 25 events were read in the help of a statistics package and on a statistics site, the other printed ones are from
 * memory; all were recomputed.
 *
 * <p>Tolerance: relative 1e-6 (the table has eight digits); the printed limits half a unit of their last digit.
 */
class PoissonLimitsPublishedTest {
    static List<Row> counts() {
        return PublishedTable.rows("poisson_exact_ci.csv");
    }

    static List<Row> printed() {
        return PublishedTable.rows("poisson_exact_ci.csv", row -> row.has("upper_published"));
    }

    @ParameterizedTest
    @MethodSource("counts")
    void recomputedLimits(Row row) {
        PoissonLimits limits = PoissonLimits.of(row.whole("count"), row.number("confidence"));
        near(row, "lower_two_sided", limits.low());
        near(row, "upper_two_sided", limits.high());
        near(row, "upper_one_sided", PoissonLimits.upper(row.whole("count"), row.number("confidence")));
    }

    @ParameterizedTest
    @MethodSource("printed")
    void printedLimits(Row row) {
        PoissonLimits limits = PoissonLimits.of(row.whole("count"), row.number("confidence"));
        double lowAllowed = row.whole("count") == 0 ? 0 : row.halfUnit("lower_published");
        assertEquals(row.number("lower_published"), limits.low(), lowAllowed, row.toString());
        assertEquals(row.number("upper_published"), limits.high(), row.halfUnit("upper_published"), row.toString());
    }

    private static void near(Row row, String column, double found) {
        double expected = row.number(column);
        assertEquals(expected, found, 1e-6 * expected, row + " " + column);
    }
}
