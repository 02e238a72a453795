package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Sample rates as 80-bit extended numbers, aiff_extended80.csv.
 *
 * <p>Source: Apple, Audio Interchange File Format AIFF, version 1.3 (1989), COMM chunk; IEEE 754 80-bit extended. Five rates
 * read in the test suites of public audio readers, the others recomputed.
 *
 * <p>Tolerance: none for whole rates and for the value the bytes stand for; half a unit of the last digit where the table
 * prints a rounded rate.
 */
class ExtendedRatePublishedTest {
    static List<Row> rates() {
        return PublishedTable.rows("aiff_extended80.csv");
    }

    @ParameterizedTest
    @MethodSource("rates")
    void rateInTenBytes(Row row) {
        byte[] bytes = HexFormat.of().parseHex(row.text("hex_10_bytes_big_endian"));
        double hz = ExtendedRate.hz(bytes);
        double allowed = row.text("sample_rate").contains(".") ? row.halfUnit("sample_rate") : 0;
        assertEquals(row.number("sample_rate"), hz, allowed, row.toString());
        assertEquals(plainValue(bytes), hz, "the value that the bytes stand for");
    }

    /** The definition in exact arithmetic: 64-bit significand times two to the exponent - 16383 - 63. */
    private static double plainValue(byte[] bytes) {
        BigInteger all = new BigInteger(1, bytes);
        int exponent = all.shiftRight(64).intValueExact();
        BigDecimal significand =
                new BigDecimal(all.and(BigInteger.ONE.shiftLeft(64).subtract(BigInteger.ONE)));
        int power = exponent - 16383 - 63;
        BigDecimal two = BigDecimal.valueOf(2);
        BigDecimal value = power < 0 ? significand.divide(two.pow(-power)) : significand.multiply(two.pow(power));
        return value.doubleValue();
    }
}
