package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class DecisionTimeTest {
    private static final double TEN_HOURS_SECONDS = 36_000;

    /**
     * Worked by hand: both sides 60 s with error 1, difference 1, z = 2: the variance 2 must fall to 1/4, to an eighth, so 480 s are needed,
     * 420 more.
     */
    @Test
    void handWorked() {
        DecisionTime decision = new DecisionTime(2, TEN_HOURS_SECONDS);
        TimedError minute = new TimedError(1, 60);
        assertEquals(420, decision.moreSeconds(1, minute, minute).orElseThrow(), 1e-9);
        assertEquals(420, decision.moreSeconds(-1, minute, minute).orElseThrow(), 1e-9);
    }

    @Test
    void alreadyDecidedOrNever() {
        DecisionTime decision = new DecisionTime(2, 420.001);
        TimedError minute = new TimedError(1, 60);
        TimedError sure = new TimedError(0, 60);
        assertEquals(OptionalDouble.of(0), decision.moreSeconds(3, minute, minute));
        assertEquals(OptionalDouble.of(0), decision.moreSeconds(1e-9, sure, sure));
        assertEquals(OptionalDouble.empty(), decision.moreSeconds(0, minute, minute));
        assertEquals(OptionalDouble.empty(), decision.moreSeconds(0, sure, sure));
        assertEquals(OptionalDouble.empty(), decision.moreSeconds(1e-200, minute, minute));
        assertTrue(decision.moreSeconds(1, minute, minute).isPresent(), "just within the most");
        assertEquals(OptionalDouble.empty(), new DecisionTime(2, 419.999).moreSeconds(1, minute, minute));
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 500);
    }

    /** Put in, the time makes the difference exactly z standard errors; swapped sides need the same. */
    @ParameterizedTest
    @MethodSource("seeds")
    void laws(int seed) {
        Random random = new Random(seed);
        TimedError a = new TimedError(Math.exp(3 * random.nextGaussian()), Math.exp(4 + 2 * random.nextGaussian()));
        TimedError b = new TimedError(Math.exp(3 * random.nextGaussian()), Math.exp(4 + 2 * random.nextGaussian()));
        double sigmas = 1.5 + 3 * random.nextDouble();
        double shareOfNeed = Math.pow(10, -3 * random.nextDouble());
        double difference = shareOfNeed * sigmas * Math.hypot(a.standardError(), b.standardError());
        DecisionTime decision = new DecisionTime(sigmas, 1e12);
        double more = decision.moreSeconds(difference, a, b).orElseThrow();
        double errorThen = Math.hypot(errorAfter(a, more), errorAfter(b, more));
        assertTrue(more > 0, "seed " + seed);
        assertEquals(sigmas, difference / errorThen, 1e-9 * sigmas, "seed " + seed);
        assertEquals(more, decision.moreSeconds(difference, b, a).orElseThrow(), 1e-9 * more, "seed " + seed);
    }

    private static double errorAfter(TimedError error, double moreSeconds) {
        return error.standardError() * Math.sqrt(error.lengthSeconds() / (error.lengthSeconds() + moreSeconds));
    }

    /** Printed tables of the normal distribution, from memory: 1.959964 for 5 %, 2.575829 for 1 %. */
    @Test
    void sigmasOfALevel() {
        assertEquals(1.959964, DecisionTime.sigmas(0.05), 5e-7);
        assertEquals(2.575829, DecisionTime.sigmas(0.01), 5e-7);
        assertTrue(DecisionTime.sigmas(1e-20) > 9, "a tiny level is no nonsense");
    }

    @Test
    void nonsenseIsRefused() {
        TimedError minute = new TimedError(1, 60);
        assertThrows(IllegalArgumentException.class, () -> new TimedError(-1, 60));
        assertThrows(IllegalArgumentException.class, () -> new TimedError(Double.NaN, 60));
        assertThrows(IllegalArgumentException.class, () -> new TimedError(1, 0));
        assertThrows(IllegalArgumentException.class, () -> new DecisionTime(0, 60));
        assertThrows(IllegalArgumentException.class, () -> new DecisionTime(2, Double.POSITIVE_INFINITY));
        assertThrows(IllegalArgumentException.class, () -> DecisionTime.sigmas(0));
        assertThrows(IllegalArgumentException.class, () -> DecisionTime.sigmas(1));
        DecisionTime decision = new DecisionTime(2, 60);
        assertThrows(IllegalArgumentException.class, () -> decision.moreSeconds(Double.NaN, minute, minute));
    }
}
