package org.steadyshaft.analysis;

import java.util.Random;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/**
 * A capture with ripple at the mains and twice the mains, drawn from a seed over all that a recording may be: tacho frequency, noise, hum,
 * uneven poles, a strong second harmonic, the mains off its nominal frequency, a wander of the speed.
 *
 * @param source the capture
 * @param tachoHz its tacho frequency
 * @param mainsHz frequency of the mains
 * @param twicePercent amplitude of the speed's line at twice the mains
 * @param oncePercent that at the mains
 */
record RippleCase(SampleSource source, double tachoHz, double mainsHz, double twicePercent, double oncePercent) {
    private static final int POLE_PAIRS = 8;
    private static final double LEVEL = 0.5;
    private static final double RATE_HZ = 12000;

    /** Same seed, same capture. */
    static RippleCase of(long seed) {
        Random random = Seeds.random(seed);
        double hz = 25 * Math.pow(600.0 / 25, random.nextDouble());
        return of(seed, random, hz, Seeds.between(random, 25, 50), Seeds.between(random, 0, 0.3));
    }

    /** The same with a given tacho frequency, signal over noise [dB], and hum over the tacho's level. */
    static RippleCase of(long seed, Random random, double tachoHz, double snrDb, double hum) {
        double mains = Seeds.between(random, 49.9, 50.1);
        double twice = 0.1 * Math.pow(10, random.nextDouble());
        double once = Seeds.between(random, 0, 0.3);
        double seconds = Seeds.between(random, 15, 40);
        double rpm = new Tachometer(POLE_PAIRS).rpm(tachoHz);
        DrawnSpeed speed = DrawnSpeed.level(rpm)
                .line(2 * mains, twice, 2 * Math.PI * random.nextDouble())
                .line(mains, once, 2 * Math.PI * random.nextDouble());
        speed = Seeds.wander(speed, random, 0.05, seconds);
        Settings settings = Settings.clean(RATE_HZ, seconds)
                .withTachometer(new Tachometer(POLE_PAIRS))
                .withPattern(pattern(random))
                .withShape(LEVEL * 1000 / rpm, Seeds.between(random, 0, 0.6), Seeds.between(random, 0, 0.1))
                .withEccentricity(Seeds.between(random, 0, 3))
                .withHum(hum * LEVEL, mains)
                .withNoise(LEVEL / Math.sqrt(2) * Math.pow(10, -snrDb / 20), random.nextLong());
        return new RippleCase(new DrawnTacho("seed " + seed, speed, settings), tachoHz, mains, twice, once);
    }

    /** Uneven poles of up to 5 % at most; their sum is 0. */
    private static double[] pattern(Random random) {
        double[] pattern = new double[POLE_PAIRS];
        double size = Seeds.between(random, 0, 5);
        double mean = 0;
        for (int i = 0; i < POLE_PAIRS; i++) {
            pattern[i] = size * Seeds.between(random, -1, 1);
            mean += pattern[i] / POLE_PAIRS;
        }
        for (int i = 0; i < POLE_PAIRS; i++) {
            pattern[i] = 0.6 * (pattern[i] - mean);
        }
        return pattern;
    }
}
