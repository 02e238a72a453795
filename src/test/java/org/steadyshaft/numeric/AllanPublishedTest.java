package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * The overlapping Allan deviation of the nine-point set and of the 1000-point set, and their plain statistics.
 *
 * <p>Source: W. J. Riley, Handbook of Frequency Stability Analysis, NIST Special Publication 1065, 2008, sections 12.3 and 12.4
 * (allan_nbs9_frequency.csv, allan_nbs9_phase.csv, allan_lcg1000_generator.json, allan_deviations.csv: read in public test
 * suites and recomputed; allan_basic_statistics.csv: memory and recomputed).
 *
 * <p>Tolerances: relative 1e-8 to the recomputed figure and 6e-7 to the printed one of seven digits, as the notes on the tables
 * ask; numbers of terms exactly. Rows of other statistics are left alone: the program has none of these.
 */
class AllanPublishedTest {
    static List<Row> overlapping() {
        List<Row> rows = PublishedTable.rows(
                "allan_deviations.csv", row -> row.text("statistic").equals("oadev"));
        assertEquals(5, rows.size(), "two factors of one set, three of the other");
        return rows;
    }

    @ParameterizedTest
    @MethodSource("overlapping")
    void ofFrequency(Row row) {
        check(row, AllanDeviation.ofFrequency(frequencies(row.text("dataset")), row.whole("averaging_factor")));
    }

    /** The phase values of the nine-point set as tabulated, at a spacing of 1, and at one of 2 with half the deviation. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2})
    void ofPhase(int factor) {
        Row row = overlapping().stream()
                .filter(r -> r.text("dataset").equals("nbs9") && r.whole("averaging_factor") == factor)
                .findFirst()
                .orElseThrow();
        double[] phase = PublishedTable.column("allan_nbs9_phase.csv", "x_recomputed");
        AllanDeviation found = AllanDeviation.ofPhase(phase, 1, factor);
        check(row, found);
        assertEquals(
                found.deviation() / 2, AllanDeviation.ofPhase(phase, 2, factor).deviation(), 1e-12 * found.deviation());
    }

    private static void check(Row row, AllanDeviation found) {
        double recomputed = row.number("recomputed");
        assertEquals(row.whole("terms_used"), found.terms(), row + " terms");
        assertEquals(recomputed, found.deviation(), 1e-8 * recomputed, row + " recomputed");
        assertEquals(row.number("published"), found.deviation(), 6e-7 * recomputed, row + " published");
    }

    static List<Row> plainStatistics() {
        List<String> known = List.of("max", "min", "mean", "median", "linear_slope", "linear_intercept", "sample_std");
        List<Row> rows =
                PublishedTable.rows("allan_basic_statistics.csv", row -> known.contains(row.text("statistic")));
        assertEquals(2 * known.size(), rows.size(), "seven figures of two sets");
        return rows;
    }

    @ParameterizedTest
    @MethodSource("plainStatistics")
    void plainStatistic(Row row) {
        double[] values = frequencies(row.text("dataset"));
        double[] place = new double[values.length];
        Arrays.setAll(place, i -> i + 1);
        Moments moments = new Moments();
        Arrays.stream(values).forEach(moments::add);
        double found = switch (row.text("statistic")) {
            case "max" -> moments.largest();
            case "min" -> moments.smallest();
            case "mean" -> moments.mean();
            case "median" -> Robust.median(values);
            case "linear_slope" -> LineFit.of(place, values).slope();
            case "linear_intercept" -> LineFit.of(place, values).intercept();
            default -> moments.deviation();
        };
        double recomputed = row.number("recomputed");
        assertEquals(recomputed, found, 1e-8 * Math.abs(recomputed), row.toString());
        assertEquals(row.number("published"), found, 6e-7 * Math.abs(recomputed), row + " published");
    }

    /** The generator gives the listed integers, so the 1000 points are those of the document. */
    @Test
    void generatedIntegers() {
        JsonNode rule = PublishedTable.json("allan_lcg1000_generator.json");
        double modulus = rule.get("modulus").asDouble();
        double[] values = frequencies("lcg1000");
        JsonNode first = rule.get("first_integers");
        assertTrue(first.size() >= 5, "listed integers");
        for (int i = 0; i < first.size(); i++) {
            assertEquals(first.get(i).asLong(), Math.round(values[i] * modulus), "integer " + i);
        }
        assertEquals(rule.get("last_integer").asLong(), Math.round(values[values.length - 1] * modulus), "last");
    }

    private static double[] frequencies(String set) {
        if (set.equals("nbs9")) {
            return PublishedTable.column("allan_nbs9_frequency.csv", "y");
        }
        JsonNode rule = PublishedTable.json("allan_lcg1000_generator.json");
        double[] values = new double[rule.get("count").asInt()];
        long integer = rule.get("n0").asLong();
        for (int i = 0; i < values.length; i++) {
            values[i] = integer / rule.get("modulus").asDouble();
            integer = rule.get("multiplier").asLong()
                    * integer
                    % rule.get("modulus").asLong();
        }
        return values;
    }
}
