package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;

/**
 * Two rates of cases in a population: 11 cases in 800 person-years against 6 + 8 + 7 in 1083 + 1050 + 878.
 *
 * <p>Source: the example of the exact Poisson test in the documentation of a general statistics package, from memory: ratio of the
 * rates 1.971488, 95 % limits 0.8584264 and 4.2772659. It tells p = 0.07967 where both tails are summed by their likelihood; this
 * program doubles the smaller tail, which is never smaller. The doubled tail is held against sums of binomial chances.
 */
class PoissonRatesPublishedTest {
    private final PoissonRates rates = new PoissonRates(11, 800, 21, 3011);

    @Test
    void ratioAndItsLimits() {
        assertEquals(1.971488, rates.ratio().orElseThrow(), 0.5e-6);
        assertEquals(0.8584264, rates.ratioInterval(0.95).low(), 0.5e-7);
        assertEquals(4.2772659, rates.ratioInterval(0.95).high(), 0.5e-7);
    }

    @Test
    void theDoubledTail() {
        BinomialDistribution cases = BinomialDistribution.of(32, 800.0 / 3811);
        double tail = 0;
        for (int i = 11; i <= 32; i++) {
            tail += cases.probability(i);
        }
        assertEquals(2 * tail, rates.pValue(), 1e-12);
        assertEquals(0.112, rates.pValue(), 0.0005);
    }
}
