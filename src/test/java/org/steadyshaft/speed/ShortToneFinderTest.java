package org.steadyshaft.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;

/** Short records: a tone from three cycles on, with an uncertainty that holds, and nothing made up of noise. */
class ShortToneFinderTest {
    private static final double RATE_HZ = ShortRecord.RATE_HZ;

    private static ShortTone find(int samples, IntToDoubleFunction value) {
        return new ShortToneFinder(RATE_HZ, 0)
                .find(IntStream.range(0, samples).mapToDouble(value).toArray());
    }

    private static ShortTone.Found found(int samples, IntToDoubleFunction value) {
        return assertInstanceOf(ShortTone.Found.class, find(samples, value));
    }

    /**
     * The error against the bound for a sine of unknown frequency in white noise (D. C. Rife and R. R. Boorstyn, IEEE Trans. Inf. Theory
     * IT-20(5) 591-598, 1974), and how often twice the stated standard error holds it. Three standard deviations of the share
     * 95.45 % are allowed below, and the two limits that are taken of near and far noise may claim a little
     * too much above.
     */
    @ParameterizedTest(name = "{0} cycles, {1} bits, {2} dB, {3} samples")
    @CsvSource({"3, 8, 20, 500", "3, 10, 30, 1200", "4.4, 8, 40, 1000", "7.7, 16, 30, 600", "20, 8, 20, 1200"})
    void errors_and_coverage(double cycles, int bits, double decibels, int samples) {
        ShortRecord made = new ShortRecord(cycles, bits, decibels, samples, 0, 0);
        Random random = new Random(5);
        int covered = 0;
        double squares = 0;
        int records = Thorough.count(40, 120);
        for (int i = 0; i < records; i++) {
            ShortTone tone = new ShortToneFinder(RATE_HZ, made.step()).find(made.draw(random));
            ShortTone.Found found = assertInstanceOf(ShortTone.Found.class, tone);
            double error = found.frequencyHz() - made.trueHz();
            covered += Math.abs(error) <= 2 * found.standardErrorHz() ? 1 : 0;
            squares += error * error;
        }
        double bound = RATE_HZ / (2 * Math.PI) * Math.sqrt(12 / (Math.pow(10, decibels / 10) * Math.pow(samples, 3)));
        double ratio = Math.sqrt(squares / records) / bound;
        // a spread is known to 1 / sqrt(2 n), two of which are allowed
        double scatter = 2 / Math.sqrt(2.0 * records);
        assertTrue(covered >= share(0.9545, records) * records, "covered " + covered + " of " + records);
        // eight bits add noise of their own at 40 dB; fewer cycles than five cost a little for the offset and the
        // harmonics
        assertTrue(ratio > 1 - scatter && ratio < (bits == 8 ? 1.5 : 1.1) + scatter, "error over bound " + ratio);
    }

    /** With a ripple of 0.3 % and 1 % of hum, what so short a record cannot show belongs to the uncertainty. */
    @ParameterizedTest
    @ValueSource(doubles = {3, 5.3, 9.6, 20})
    void coverage_beside_ripple_and_hum(double cycles) {
        ShortRecord made = new ShortRecord(cycles, 8, 35, 1000, 0.003, 0.01);
        Random random = new Random(6);
        int covered = 0;
        int records = Thorough.count(35, 100);
        for (int i = 0; i < records; i++) {
            ShortTone tone = new ShortToneFinder(RATE_HZ, made.step()).find(made.draw(random));
            ShortTone.Found found = assertInstanceOf(ShortTone.Found.class, tone);
            double stated = 2 * Math.hypot(found.standardErrorHz(), found.unseenHz());
            covered += Math.abs(found.frequencyHz() - made.trueHz()) <= stated ? 1 : 0;
        }
        assertTrue(covered >= share(0.9545, records) * records, covered + " of " + records);
    }

    /** The least share of so many records that a true share gives but for three standard deviations. */
    private static double share(double truth, int records) {
        return truth - 3 * Math.sqrt(truth * (1 - truth) / records);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1.4, 2, 2.5, 2.9})
    void fewer_than_three_cycles_are_told(double cycles) {
        ShortTone tone = find(1000, i -> Math.sin(2 * Math.PI * cycles * i / 1000 + 1));
        assertEquals(
                cycles, assertInstanceOf(ShortTone.TooFewCycles.class, tone).cycles(), 0.02);
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"white", "brown", "pink", "steps", "still"})
    void noise_has_no_tone(String colour) {
        int tones = 0;
        for (int seed = 0; seed < Thorough.count(12, 100); seed++) {
            Random random = new Random(seed);
            double[] values = new double[1000];
            double slow = 0;
            double mean = 0;
            for (int i = 0; i < values.length; i++) {
                double white = random.nextGaussian();
                slow += white;
                mean += 0.02 * (white - mean);
                values[i] = switch (colour) {
                    case "white" -> white;
                    case "brown" -> slow;
                    case "pink" -> white + 8 * mean + 0.02 * slow;
                    case "steps" -> Math.rint(0.4 * white);
                    default -> 0.25;
                };
            }
            tones += new ShortToneFinder(RATE_HZ, 0).find(values) instanceof ShortTone.Found ? 1 : 0;
        }
        assertTrue(tones == 0, tones + " records have tones");
    }

    /** Clipped, differentiated and pulsed pick-ups are sums of harmonics. */
    @ParameterizedTest
    @ValueSource(strings = {"clipped", "pulse", "differentiated", "half"})
    void waves_that_are_no_sine(String wave) {
        double cycles = 5.35;
        Random random = new Random(3);
        ShortTone.Found found = found(2000, i -> {
            double turns = cycles * i / 2000;
            double sine = Math.sin(2 * Math.PI * turns);
            double value = switch (wave) {
                case "clipped" -> Math.max(-0.4, Math.min(0.4, sine));
                case "pulse" -> turns - Math.floor(turns) < 0.3 ? 1 : 0;
                case "differentiated" ->
                    Math.cos(2 * Math.PI * turns) * Math.pow(Math.abs(Math.cos(2 * Math.PI * turns)), 3);
                default -> Math.max(0, sine);
            };
            return value + 0.01 * random.nextGaussian();
        });
        double hz = cycles * RATE_HZ / 2000;
        assertEquals(cycles, found.cycles(), 2e-3 * cycles);
        assertTrue(Math.abs(found.frequencyHz() - hz) < 3 * Math.hypot(found.standardErrorHz(), found.unseenHz()));
    }

    @Test
    void an_offset_that_creeps_is_no_tone_of_its_own() {
        ShortTone.Found found = found(1000, i -> Math.sin(2 * Math.PI * 6.2 * i / 1000) + 3e-3 * i + 2e-6 * i * i);
        assertEquals(6.2 * RATE_HZ / 1000, found.frequencyHz(), 0.05);
    }

    @Test
    void a_change_of_speed_is_told_and_the_mean_is_that_over_the_record() {
        double seconds = 0.04;
        ShortTone.Found found = found(2000, i -> {
            double t = i / RATE_HZ;
            return Math.sin(2 * Math.PI * (300 * t + 0.5 * 2000 * t * t)) + 0.01 * Math.sin(13.7 * i);
        });
        assertEquals(300 + 2000 * seconds / 2, found.frequencyHz(), 0.1);
        assertEquals(2000, found.changeHzPerSecond().orElseThrow(), 50);
    }

    /** Every cycle that the record shows is used, and each is where the wave has it even if the speed swings. */
    @Test
    void every_rising_passage_is_where_the_wave_has_it() {
        ShortTone.Found found = found(
                2000,
                i -> 0.3
                        + Math.sin(
                                2 * Math.PI * (5 * i / 2000.0 - 0.3 + 0.004 * Math.sin(2 * Math.PI * 1.1 * i / 2000))));
        assertEquals(5, found.risingSeconds().size());
        for (int k = 0; k < 5; k++) {
            double at = found.risingSeconds().get(k) * RATE_HZ / 2000;
            double phase = 5 * at - 0.3 + 0.004 * Math.sin(2 * Math.PI * 1.1 * at);
            // a passage is a mean over its cycle, at the ends over half of one, in which the swing of 0.004 bends
            assertEquals(k, phase, 0.0025, "passage " + k);
        }
    }

    /** A wave whose second harmonic is the stronger is still counted once a cycle. */
    @Test
    void a_strong_second_harmonic_does_not_double_the_speed() {
        ShortTone.Found found = found(
                1500, i -> 0.6 * Math.sin(2 * Math.PI * 6 * i / 1500.0) + Math.sin(2 * Math.PI * 12 * i / 1500.0 + 1));
        assertEquals(6, found.cycles(), 0.01);
    }
}
