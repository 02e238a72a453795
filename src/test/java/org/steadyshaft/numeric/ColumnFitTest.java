package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The fit by normal equations against the one by orthogonal columns, and its damping. */
class ColumnFitTest {
    private static double[] drawn(Random random, int rows) {
        double[] values = new double[rows];
        for (int i = 0; i < rows; i++) {
            values[i] = random.nextGaussian();
        }
        return values;
    }

    @Test
    void saysAfterEveryColumnWhatTheOrthogonalFitSays() {
        Random random = new Random(1);
        double[] target = drawn(random, 203);
        ColumnFit fit = new ColumnFit(target);
        OrthogonalFit other = new OrthogonalFit(target);
        for (int j = 0; j < 12; j++) {
            double[] column = drawn(random, 203);
            fit.add(column);
            other.add(column.clone());
            assertEquals(other.energy(), fit.energy(), 1e-10 * other.energy());
            assertArrayEquals(other.coefficients(), fit.coefficients(), 1e-10);
        }
    }

    @Test
    void aColumnThatTheOthersHoldChangesNothing() {
        Random random = new Random(2);
        double[] a = drawn(random, 50);
        double[] b = drawn(random, 50);
        double[] sum = new double[50];
        Arrays.setAll(sum, i -> 2 * a[i] - 3 * b[i]);
        ColumnFit fit = new ColumnFit(drawn(random, 50));
        fit.add(a);
        fit.add(b);
        double before = fit.energy();
        double[] coefficients = fit.coefficients();
        fit.add(sum);
        assertEquals(before, fit.energy(), 1e-9 * before);
        assertEquals(0, fit.coefficients()[2]);
        assertArrayEquals(coefficients, Arrays.copyOf(fit.coefficients(), 2), 1e-12);
    }

    @Test
    void dampingMakesAStepShorterAndNoneLeavesItAsItIs() {
        Random random = new Random(3);
        ColumnFit fit = new ColumnFit(drawn(random, 80));
        for (int j = 0; j < 4; j++) {
            fit.add(drawn(random, 80));
        }
        double[] plain = fit.coefficients();
        assertArrayEquals(plain, fit.damped(new double[4]), 1e-12);
        double before = Math.abs(plain[3]);
        for (double damping : new double[] {0.01, 0.1, 1, 10, 1e6}) {
            double now = Math.abs(fit.damped(new double[] {0, 0, 0, damping})[3]);
            assertTrue(now < before, damping + ": " + now + " after " + before);
            before = now;
        }
        assertEquals(0, before, 1e-5);
    }
}
