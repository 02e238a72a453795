package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.Thorough;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/**
 * The mean of a constant speed against the bound of D. C. Rife and R. R. Boorstyn, IEEE Trans. Inf. Theory IT-20(5) 591-598,
 * 1974, for a real tone (S. M. Kay 1993, Example 3.14): std(f) = fs / (2 pi) sqrt(12 / (eta N (N^2 - 1))), eta = A^2 / (2 s^2). The
 * formula itself is checked against the table of values recomputed from the inverted Fisher matrix. Through the whole
 * program, from samples to the mean in rpm, the spread must stay below 1.5 times the bound; below 0.8 of it would mean that the
 * bound was reckoned wrongly (40 captures know a spread to 11 %).
 */
class SineMeanPublishedTest {
    private static final int CAPTURES = Thorough.count(40, 120);
    private static final double RATE_HZ = 8000;
    private static final double SECONDS = 2.5;

    private static double boundHz(double snr, double samples, double rateHz) {
        return rateHz / (2 * Math.PI) * Math.sqrt(12 / (snr * samples * (samples * samples - 1)));
    }

    @ParameterizedTest(name = "{0} dB")
    @CsvSource({"20", "30", "40", "50"})
    void theMeanOfAConstantSpeedStaysNearTheBound(double decibel) {
        double snr = Math.pow(10, decibel / 10);
        double boundHz = boundHz(snr, RATE_HZ * SECONDS, RATE_HZ);
        double[] squares = IntStream.range(0, CAPTURES)
                .parallel()
                .mapToObj(seed -> squaredErrorHz(seed, snr))
                .flatMapToDouble(OptionalDouble::stream)
                .toArray();
        assertTrue(squares.length >= 0.97 * CAPTURES, "called constant: " + squares.length + " of " + CAPTURES);
        double factor = Math.sqrt(Arrays.stream(squares).average().orElseThrow()) / boundHz;
        String seen = String.format(Locale.ROOT, "%.0f dB: %.3f times the bound", decibel, factor);
        assertTrue(factor < 1.5 && factor > 0.8, seen);
    }

    /** Absent where the speed was not taken to be constant: one capture in some hundreds, by the choice of the limits. */
    private static OptionalDouble squaredErrorHz(int seed, double snr) {
        Random random = new Random((seed + 1) * 0x9E3779B97F4A7C15L);
        double hz = 120 + 300 * random.nextDouble();
        double rpm = 60 * hz / 8;
        Settings settings = Settings.clean(RATE_HZ, SECONDS)
                .withShape(0.5 * 1000 / rpm, 0.02, 0.02)
                .withNoise(0.5 / Math.sqrt(2 * snr), seed);
        OptionalDouble found = Analysed.rotation(new DrawnTacho("tone", DrawnSpeed.level(rpm), settings))
                .speed()
                .sineRpm();
        return found.isPresent()
                ? OptionalDouble.of(Math.pow((found.getAsDouble() - rpm) * 8 / 60, 2))
                : OptionalDouble.empty();
    }

    @ParameterizedTest(name = "at least {0} samples")
    @CsvSource({"256"})
    void theFormulaIsThatOfTheTable(int least) {
        int rows = 0;
        for (Row row : PublishedTable.rows("crlb_frequency_std.csv", r -> r.whole("n_samples") >= least)) {
            if (row.text("tone").equals("real")) {
                double snr = Math.pow(10, row.number("snr_db") / 10);
                double bound = boundHz(snr, row.whole("n_samples"), row.number("fs_hz"));
                assertTrue(Math.abs(bound / row.number("std_hz_formula") - 1) < 1e-6, row + ": " + bound);
                rows++;
            }
        }
        assertTrue(rows > 0, "no rows checked");
    }
}
