package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Numbers by whole-number arithmetic against the plain forms: BigDecimal for files, the library's format for readers. */
class NumbersTest {
    private static final int TRIALS = 1_000_000;

    private static String plainMachine(double value) {
        return value == 0
                ? "0"
                : new BigDecimal(value)
                        .round(new MathContext(10, RoundingMode.HALF_EVEN))
                        .stripTrailingZeros()
                        .toPlainString();
    }

    private static String plainFixed(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.matches("-0(\\.0*)?") ? text.substring(1) : text;
    }

    /** Sizes from 1e-15 to 1e18, both signs, some of them with few digits. */
    private static double made(Random random) {
        double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(34) - 15);
        return random.nextInt(4) == 0
                ? new BigDecimal(value).round(new MathContext(4)).doubleValue()
                : value;
    }

    @Test
    void machineOfAMillionValues() {
        Random random = new Random(1);
        for (int i = 0; i < TRIALS; i++) {
            double value = made(random);
            assertEquals(plainMachine(value), Numbers.machine(value));
        }
    }

    @Test
    void fixedOfManyValues() {
        Random random = new Random(2);
        for (int i = 0; i < TRIALS / 4; i++) {
            double value = made(random);
            int decimals = random.nextInt(14);
            assertEquals(plainFixed(value, decimals), Numbers.fixed(value, decimals), value + " to " + decimals);
        }
    }

    /** Ties and their nearest neighbours, at eleven digits and at the sixth decimal. */
    @Test
    void ties() {
        Random random = new Random(3);
        for (int i = 0; i < TRIALS / 10; i++) {
            double tie = (1_000_000_000L + random.nextInt(1_000_000_000) + 0.5) / Math.pow(2, random.nextInt(30));
            double small = (random.nextInt(2_000_000_000) + 0.5) / 1e6;
            for (double value : new double[] {tie, Math.nextUp(tie), Math.nextDown(tie), -tie}) {
                assertEquals(plainMachine(value), Numbers.machine(value));
            }
            for (double value : new double[] {small, Math.nextUp(small), Math.nextDown(small), -small}) {
                assertEquals(plainFixed(value, 6), Numbers.fixed(value, 6), () -> "of " + value);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            doubles = {
                0.0,
                -0.0,
                0.01,
                0.1,
                1,
                10,
                -10,
                999999999.5,
                9999999999.0,
                9999999999.5,
                1e9,
                1e10,
                0.99999999995,
                0.0099999999999,
                -4e-7,
                5e-7,
                1e300,
                4.9e-324
            })
    void edges(double value) {
        assertEquals(plainMachine(value), Numbers.machine(value));
        for (int decimals = 0; decimals < 15; decimals++) {
            assertEquals(plainFixed(value, decimals), Numbers.fixed(value, decimals));
        }
    }
}
