package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.steadyshaft.Thorough;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.Uncertainty;

/**
 * Whether the stated uncertainty covers the truth as often as it says. With a share of p covered the count of n captures
 * scatters by sqrt(p (1 - p) / n), 0.9 % at 95.4 % of 500; twice that is allowed for. The seeds are fixed, so the counts are the same in every run.
 */
class UncertaintyTruthTest {
    private static final int CAPTURES = Thorough.count(60, 500);
    private static final double TOLERANCE_PPM = 50;

    /** Constant speed: noise from 25 to 60 dB, 8 to 16 bits, one to four seconds, with or without harmonics. */
    private static Settings drawn(Random random, double rpm, long seed) {
        double seconds = 1 + 3 * random.nextDouble();
        double rate = random.nextBoolean() ? 8000 : 12000;
        double noise = 0.5 / Math.sqrt(2) * Math.pow(10, -(25 + 35 * random.nextDouble()) / 20);
        return Settings.clean(rate, seconds)
                .withShape(0.5 * 1000 / rpm, 0.3 * random.nextDouble(), 0.1 * random.nextDouble())
                .withNoise(noise, seed);
    }

    private static boolean sineCovers(int seed) {
        Random random = Seeds.random(seed);
        double rpm = 800 + 2400 * random.nextDouble();
        Settings settings = drawn(random, rpm, seed);
        SampleSource source = new Quantised(
                new DrawnTacho("exact", DrawnSpeed.level(rpm), settings), random.nextBoolean() ? 8 : 16, 1);
        MeanSpeed speed = Analysed.rotation(source).speed();
        return Math.abs(speed.meanRpm() - rpm)
                <= Uncertainty.COVERAGE_FACTOR * speed.uncertainty().dataRpm();
    }

    @Test
    void theStatisticalPartAloneCoversAConstantSpeed() {
        assertShare("statistical part, constant speed", 0.93, 0.97, UncertaintyTruthTest::sineCovers);
    }

    /** Ripple that the tacho can show and a slow swing: the mean is that between the first and the last crossing that were used. */
    private static boolean crossingCovers(int seed) {
        Random random = Seeds.random(1000L + seed);
        double rpm = 800 + 2400 * random.nextDouble();
        DrawnSpeed motion = DrawnSpeed.level(rpm)
                .line(0.3 * rpm * 8 / 60, 0.3 * random.nextDouble(), 6 * random.nextDouble())
                .line(0.3 + random.nextDouble(), 0.2 + random.nextDouble(), 6 * random.nextDouble());
        Rotation rotation = Analysed.rotation(new DrawnTacho("swing", motion, drawn(random, rpm, seed)));
        SpeedTrack track = rotation.track();
        double from = track.fromSeconds(0);
        double to = track.toSeconds(track.size() - 1);
        double truth = 60 * (motion.turns(to) - motion.turns(from)) / (to - from);
        return Math.abs(rotation.speed().meanRpm() - truth)
                <= Uncertainty.COVERAGE_FACTOR * rotation.speed().uncertainty().dataRpm();
    }

    @Test
    void theStatisticalPartAloneCoversASwingingSpeed() {
        assertShare("statistical part, swinging speed", 0.93, 0.97, UncertaintyTruthTest::crossingCovers);
    }

    private static boolean allCovers(int seed) {
        Random random = Seeds.random(2000L + seed);
        double rpm = 800 + 2400 * random.nextDouble();
        double ppm = TOLERANCE_PPM * (2 * random.nextDouble() - 1);
        Settings settings = drawn(random, rpm, seed).withClockError(ppm);
        MeanSpeed speed = Analysed.with(
                        new DrawnTacho("clock", DrawnSpeed.level(rpm), settings), OptionalDouble.of(TOLERANCE_PPM))
                .speed();
        return Math.abs(speed.meanRpm() - rpm) <= speed.expandedRpm();
    }

    @Test
    void allOfItCoversAClockAnywhereInItsTolerance() {
        assertShare("expanded uncertainty, clock error drawn evenly", 0.93, 0.98, UncertaintyTruthTest::allCovers);
    }

    private static void assertShare(String what, double least, double most, IntPredicate covered) {
        double share = IntStream.range(0, CAPTURES).parallel().filter(covered).count() / (double) CAPTURES;
        String seen = String.format(Locale.ROOT, "%s: covered in %.1f %% of %d captures", what, 100 * share, CAPTURES);
        System.out.println(seen);
        double scatter = 2 * Math.sqrt(0.9545 * 0.0455 / CAPTURES);
        assertTrue(share >= least - scatter && share <= most + scatter, seen);
    }
}
