package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class PoissonRatesTest {
    private static final double NEVER = Double.POSITIVE_INFINITY;

    /**
     * Worked by hand, equal exposures, share 1/2: 0 of 6 is 2 / 64; 1 of 6 is 2 (1 + 6) / 64; 3 of 6 would be 2 (1 + 6 + 15 + 20) / 64,
     * above 1, so 1. Exposures 1 to 3, share 1/4: 3 of 3 is 2 / 64; 2 of 3 is 2 (9 + 1) / 64; 0 of 3 is 2 * 27 / 64.
     */
    @ParameterizedTest
    @CsvSource({
        "0, 1, 6, 1, 2", "6, 1, 0, 1, 2", "1, 1, 5, 1, 14", "3, 1, 3, 1, 64",
        "3, 1, 0, 3, 2", "2, 1, 1, 3, 20", "0, 20, 3, 60, 54", "0, 5, 0, 1, 64"
    })
    void handWorked(long first, double firstExposure, long second, double secondExposure, double expected64ths) {
        PoissonRates rates = new PoissonRates(first, firstExposure, second, secondExposure);
        assertEquals(expected64ths / 64, rates.pValue(), 1e-13);
    }

    /**
     * Worked by hand: all 4 events on one side, equal exposures; the lower limit of the share p solves p^4 = 0.05, so the ratio is at least
     * 0.47287 / 0.52713 = 0.89707 with 90 %, and twice that if the first side was watched half as long.
     */
    @Test
    void handWorkedLimits() {
        double share = Math.pow(0.05, 0.25);
        ConfidenceInterval equal = new PoissonRates(4, 1, 0, 1).ratioInterval(0.90);
        assertEquals(0.89707, equal.low(), 1e-5);
        assertEquals(share / (1 - share), equal.low(), 1e-10);
        assertEquals(NEVER, equal.high());
        assertEquals(
                2 * equal.low(),
                new PoissonRates(4, 1, 0, 2).ratioInterval(0.90).low(),
                1e-10);
        ConfidenceInterval none = new PoissonRates(0, 1, 0, 1).ratioInterval(0.90);
        assertEquals(0, none.low());
        assertEquals(NEVER, none.high());
    }

    @Test
    void ratioOfTheRates() {
        assertEquals(6, new PoissonRates(4, 1, 2, 3).ratio().orElseThrow());
        assertEquals(0, new PoissonRates(0, 1, 2, 3).ratio().orElseThrow());
        assertEquals(OptionalDouble.empty(), new PoissonRates(4, 1, 0, 3).ratio());
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 200);
    }

    /** At a limit of the ratio the sum of binomial terms, added one by one, is the tail; swapped sides turn the ratio over. */
    @ParameterizedTest
    @MethodSource("seeds")
    void laws(int seed) {
        Random random = new Random(seed);
        PoissonRates rates = new PoissonRates(
                1 + random.nextInt(30), 0.1 + random.nextDouble(), 1 + random.nextInt(30), 0.1 + random.nextDouble());
        PoissonRates swapped = new PoissonRates(
                rates.secondCount(), rates.secondExposure(), rates.firstCount(), rates.firstExposure());
        ConfidenceInterval limits = rates.ratioInterval(0.95);
        ConfidenceInterval swappedLimits = swapped.ratioInterval(0.95);
        assertEquals(rates.pValue(), swapped.pValue(), 1e-12, "seed " + seed);
        assertEquals(1, limits.low() * swappedLimits.high(), 1e-9, "seed " + seed);
        assertEquals(1, limits.high() * swappedLimits.low(), 1e-9, "seed " + seed);
        assertTrue(limits.holds(rates.ratio().orElseThrow()), "seed " + seed);
        assertEquals(limits.holds(1), rates.pValue() > 0.05, "the test and the limits agree, seed " + seed);
        assertEquals(0.025, 1 - termsUpTo(rates, rates.firstCount() - 1, limits.low()), 1e-9, "seed " + seed);
        assertEquals(0.025, termsUpTo(rates, rates.firstCount(), limits.high()), 1e-9, "seed " + seed);
        double few = termsUpTo(rates, rates.firstCount(), 1);
        double many = 1 - termsUpTo(rates, rates.firstCount() - 1, 1);
        assertEquals(Math.min(1, 2 * Math.min(few, many)), rates.pValue(), 1e-10, "seed " + seed);
    }

    /** Chance of up to so many events on the first side of all, if the true ratio of the rates is this. */
    private static double termsUpTo(PoissonRates rates, long most, double ratio) {
        long all = rates.firstCount() + rates.secondCount();
        double odds = ratio * rates.firstExposure() / rates.secondExposure();
        double term = Math.pow(1 + odds, -all);
        double sum = 0;
        for (long k = 0; k <= most; k++) {
            sum += term;
            term *= odds * (all - k) / (k + 1);
        }
        return sum;
    }

    /** Equal rates, means 4 and 12: p at most 0.05 in no more than 5 % of 10,000 runs, but in more than 1 %: cautious, not blind. */
    @Test
    void falseAlarmsStayBelowTheLevel() {
        Random random = new Random(13);
        int alarms = 0;
        for (int run = 0; run < 10_000; run++) {
            alarms += new PoissonRates(events(random, 4), 1, events(random, 12), 3).pValue() <= 0.05 ? 1 : 0;
        }
        double percent = alarms / 100.0;
        assertTrue(percent > 1 && percent < 5, percent + " % false alarms, seed 13");
    }

    private static long events(Random random, double mean) {
        long count = 0;
        for (double left = Math.exp(-mean), product = random.nextDouble(); product > left; count++) {
            product *= random.nextDouble();
        }
        return count;
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(-1, 1, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(0, 1, -1, 1));
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(0, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(0, 1, 0, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(0, 1, 0, NEVER));
        assertThrows(IllegalArgumentException.class, () -> new PoissonRates(1, 1, 1, 1).ratioInterval(0));
    }
}
