package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The fast transform against the plain sum. Lengths: powers of two, products of small primes, and twice a large prime, for
 * which the library takes a wholly different way. Allowed is 1e-12 of the sum of all magnitudes, far above the rounding of
 * the sum itself and far below one misplaced value.
 */
class RealTransformTest {
    private static final String LENGTHS = "4 6 8 10 12 14 16 22 30 64 98 100 142 250 360 446 512 1000 1024 2018";

    static int[] lengths() {
        return Arrays.stream(LENGTHS.split(" ")).mapToInt(Integer::parseInt).toArray();
    }

    @ParameterizedTest
    @MethodSource("lengths")
    void forwardIsTheDirectSum(int length) {
        double[] x = noise(length);
        double[] packed = x.clone();
        new RealTransform(length).forward(packed);
        double allowed = 1e-12 * magnitudes(x);
        for (int k = 0; k <= length / 2; k++) {
            double real = 0;
            double imaginary = 0;
            for (int n = 0; n < length; n++) {
                // the product is reduced first, so that the angle stays small and exact
                double angle = 2 * Math.PI * ((long) k * n % length) / length;
                real += x[n] * Math.cos(angle);
                imaginary -= x[n] * Math.sin(angle);
            }
            if (k == 0 || k == length / 2) {
                assertEquals(real, packed[k == 0 ? 0 : 1], allowed, "bin " + k + " of " + length);
            } else {
                assertEquals(real, packed[2 * k], allowed, "real part of bin " + k + " of " + length);
                assertEquals(imaginary, packed[2 * k + 1], allowed, "imaginary part of bin " + k + " of " + length);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("lengths")
    void inverseUndoesForward(int length) {
        double[] x = noise(length);
        double[] data = x.clone();
        RealTransform transform = new RealTransform(length);
        transform.forward(data);
        transform.inverse(data);
        assertArrayEquals(x, data, 1e-13 * length);
    }

    /** The same energy on both sides; inner bins stand for two. */
    @ParameterizedTest
    @MethodSource("lengths")
    void parseval(int length) {
        double[] x = noise(length);
        double energy = 0;
        for (double value : x) {
            energy += value * value;
        }
        RealTransform transform = new RealTransform(length);
        double[] power = new double[length / 2 + 1];
        transform.forward(x);
        transform.power(x, power);
        double sum = power[0] + power[length / 2];
        for (int k = 1; k < length / 2; k++) {
            sum += 2 * power[k];
        }
        assertEquals(energy, sum / length, 1e-12 * energy);
    }

    /** A sine that starts at zero has a negative imaginary part: the sign of the exponent is the stated one. */
    @Test
    void signOfTheExponent() {
        double[] sine = new double[16];
        for (int n = 0; n < sine.length; n++) {
            sine[n] = Math.sin(2 * Math.PI * 3 * n / 16);
        }
        new RealTransform(16).forward(sine);
        assertEquals(-8, sine[7], 1e-13);
        assertEquals(0, sine[6], 1e-13);
    }

    /** One instance is used over and over: nothing of one transform may stay for the next. */
    @Test
    void instanceHasNoMemory() {
        RealTransform transform = new RealTransform(250);
        double[] first = noise(250);
        double[] again = first.clone();
        transform.forward(first);
        transform.inverse(noise(250));
        transform.forward(again);
        assertArrayEquals(first, again);
    }

    @ParameterizedTest
    @ValueSource(ints = {-2, 0, 2, 3, 5, 1023})
    void refusesOddOrTinyLengths(int length) {
        assertThrows(IllegalArgumentException.class, () -> new RealTransform(length));
    }

    @ParameterizedTest
    @CsvSource({"-3, 4", "0, 4", "4, 4", "4.001, 8", "1000, 1024", "1024, 1024", "1025, 2048", "1073741824, 1073741824"
    })
    void powerOfTwoFrom(double value, int expected) {
        assertEquals(expected, RealTransform.powerOfTwoFrom(value));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1073741825.0, Double.POSITIVE_INFINITY, Double.NaN})
    void noPowerOfTwoFits(double value) {
        assertThrows(IllegalArgumentException.class, () -> RealTransform.powerOfTwoFrom(value));
    }

    private static double[] noise(int length) {
        Random random = new Random(7L * length);
        double[] x = new double[length];
        for (int n = 0; n < length; n++) {
            x[n] = random.nextGaussian() + 0.5;
        }
        return x;
    }

    private static double magnitudes(double[] x) {
        double sum = 0;
        for (double value : x) {
            sum += Math.abs(value);
        }
        return sum;
    }
}
