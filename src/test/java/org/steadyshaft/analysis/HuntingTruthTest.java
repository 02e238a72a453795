package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** A swing that lasts is hunting, with its frequency, size and trend; a speed that merely wanders does not hunt. */
class HuntingTruthTest {
    static IntStream seeds() {
        return IntStream.range(0, Thorough.count(4, 15));
    }

    private static Settings settings(Random random, double rpm, long seed) {
        return Settings.clean(4000, 30)
                .withPattern(1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2)
                .withShape(0.5 * 1000 / rpm, 0.03, 0.05)
                .withNoise(Seeds.between(random, 0.001, 0.004), seed);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void aSwingThatLastsIsHunting(int seed) {
        Random random = Seeds.random(seed);
        double rpm = Seeds.between(random, 600, 3000);
        double hz = Seeds.between(random, 0.3, Math.min(9, 0.24 * rpm / 60));
        double percent = Seeds.between(random, 0.35, 4);
        DrawnSpeed speed =
                DrawnSpeed.level(rpm).line(hz, percent, 6 * random.nextDouble()).line(100, 0.3, 1);
        speed = Seeds.wander(speed, random, 0.05, 30);
        Hunting hunting = Analysed.looped(new DrawnTacho("hunting", speed, settings(random, rpm, seed)))
                .hunting()
                .orElseThrow();
        String drawn = hz + " Hz " + percent + " %: " + hunting;
        assertEquals(hz, hunting.frequencyHz(), 0.02 * hz, drawn);
        assertEquals(percent, hunting.amplitudePercent(), 0.1 * percent, drawn);
        assertEquals(Hunting.Trend.SUSTAINED, hunting.trend(), drawn);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void aSwingThatGrowsOrDiesIsToldSo(int seed) {
        Random random = Seeds.random(100L + seed);
        double rpm = Seeds.between(random, 900, 3000);
        double hz = Seeds.between(random, 0.8, 3);
        boolean grows = seed % 2 == 0;
        double perSecond = Seeds.between(random, 0.05, 0.09);
        DrawnSpeed speed = DrawnSpeed.level(rpm)
                .swell(hz, grows ? 0.3 : 3, 6 * random.nextDouble(), grows ? perSecond : -perSecond);
        Hunting hunting = Analysed.looped(new DrawnTacho("swell", speed, settings(random, rpm, seed)))
                .hunting()
                .orElseThrow();
        assertEquals(grows ? Hunting.Trend.GROWING : Hunting.Trend.DYING, hunting.trend(), hunting.toString());
        assertEquals(hz, hunting.frequencyHz(), 0.02 * hz);
    }

    /** Sixty recordings of thirty seconds: one or two may show a hump by chance, no more. */
    @Test
    void aWanderIsNotHunting() {
        int wanders = Thorough.count(12, 60);
        long hunts = IntStream.range(0, wanders)
                .parallel()
                .filter(seed -> {
                    Random random = Seeds.random(200L + seed);
                    double rpm = Seeds.between(random, 600, 3000);
                    DrawnSpeed speed = Seeds.wander(
                            DrawnSpeed.level(rpm).line(100, 0.3, 1), random, Seeds.between(random, 0.1, 0.5), 30);
                    return Analysed.rotation(new DrawnTacho("wander", speed, settings(random, rpm, seed)))
                            .hunting()
                            .isPresent();
                })
                .count();
        assertTrue(hunts <= wanders / 12, hunts + " of " + wanders + " wandering speeds were said to hunt");
    }

    /**
     * A fast wide swing, of an index above 1 (4.2 % at 4.7 Hz beside 190 Hz), puts more into its sidebands than into the tacho's own line: what
     * stands there is no ripple of the mains, no pick-up, and no doubt about the speed.
     */
    @Test
    void aWideSwingIsNoRippleAndNoDoubt() {
        double rpm = 11382;
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(4.7, 4.2, 1).line(100, 0.2, 0);
        Settings settings = Settings.clean(8000, 26)
                .withTachometer(new Tachometer(1))
                .withShape(0.5 * 1000 / rpm, 0.1, 0.05)
                .withNoise(0.004, 5);
        Outcome.Analysed analysed = Analysed.of(new DrawnTacho("wide", speed, settings), 1);
        assertEquals(List.of(), analysed.findings(), "nothing is wrong with the recording");
        List<RippleLine> lines = analysed.rotation().orElseThrow().spectrum().lines();
        assertEquals(2, lines.size(), lines.toString());
        assertEquals(4.2, lines.get(0).amplitudePercent(), 0.05);
        assertEquals(0.2, lines.get(1).amplitudePercent(), 0.01);
    }

    /** A line of the swing's own pair that happens to stand where a wrong sample rate would put the mains is none. */
    @Test
    void aSidebandOfTheSwingIsNoPickUp() {
        DrawnSpeed speed = DrawnSpeed.level(1178.77).line(1.934, 2.9, 1);
        Settings settings = Settings.clean(8000, 40)
                .withTachometer(new Tachometer(2))
                .withShape(0.5 * 1000 / 1178.77, 0.1, 0.05)
                .withNoise(0.004, 5);
        Outcome.Analysed analysed = Analysed.of(new DrawnTacho("sideband", speed, settings), 2);
        assertEquals(List.of(), analysed.findings());
    }
}
