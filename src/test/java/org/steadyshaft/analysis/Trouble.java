package org.steadyshaft.analysis;

import java.util.Random;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** What disturbs a simulated recording while its answer to a step or a load is measured. */
enum Trouble {
    NOISE(0.01, false, 0, 0),
    RIPPLE(0.003, false, 0.5, 0),
    PATTERN(0.003, true, 0, 0),
    HUNTING(0.003, false, 0, 3),
    ALL_BUT_HUNTING(0.01, true, 0.5, 0);

    private static final double[] PATTERN_PERCENT = {1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2};

    private final double noise;
    private final boolean pattern;
    private final double ripplePercent;
    private final double huntingPercent;

    Trouble(double noise, boolean pattern, double ripplePercent, double huntingPercent) {
        this.noise = noise;
        this.pattern = pattern;
        this.ripplePercent = ripplePercent;
        this.huntingPercent = huntingPercent;
    }

    double huntingPercent() {
        return huntingPercent;
    }

    /** A recording of a drawn speed about which so far nothing is wrong; phases and the hunting's frequency by the seed. */
    DrawnTacho recording(DrawnSpeed clean, double seconds, long seed) {
        Random random = new Random(seed);
        DrawnSpeed speed = clean;
        double huntingHz = 0.6 + 1.4 * random.nextDouble();
        double phase = 6.28 * random.nextDouble();
        speed = huntingPercent > 0 ? speed.line(huntingHz, huntingPercent, phase) : speed;
        speed = ripplePercent > 0 ? speed.line(100, ripplePercent, phase) : speed;
        Settings settings =
                Settings.clean(16000, seconds).withShape(0.5, 0.03, 0.05).withNoise(noise, seed);
        return new DrawnTacho(
                name() + " seed " + seed, speed, pattern ? settings.withPattern(PATTERN_PERCENT) : settings);
    }
}
