package org.steadyshaft.analysis;

import java.util.Random;
import org.steadyshaft.simulate.DrawnSpeed;

/** Random numbers and motions of seeded tests. */
final class Seeds {
    private Seeds() {}

    /** Neighbouring seeds give alike first numbers; multiplied by a large odd number they do not. */
    static Random random(long seed) {
        return new Random((seed + 1) * 0x9E3779B97F4A7C15L);
    }

    /** Uniform between two values. */
    static double between(Random random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** Pushes a second in a wander. */
    private static final double PUSHES_A_SECOND = 1;

    /**
     * A speed that wanders without a rhythm: small pushes up and down at chance times, each coming within some tenths of a second and
     * fading within about a second.
     *
     * @param rmsPercent about how much it wanders
     */
    static DrawnSpeed wander(DrawnSpeed speed, Random random, double rmsPercent, double seconds) {
        DrawnSpeed all = speed;
        int pushes = (int) (PUSHES_A_SECOND * seconds);
        for (int i = 0; i < pushes; i++) {
            double rise = between(random, 0.3, 0.6);
            double returns = between(random, 0.4, 1.2);
            // a push of height h has the energy h^2 (rise / 3 + returns / 2); so many a second add up to the mean
            // square
            double energy = PUSHES_A_SECOND * (rise / 3 + returns / 2);
            double percent = rmsPercent / Math.sqrt(energy) * random.nextGaussian();
            all = all.blip(seconds * random.nextDouble(), rise, percent, returns);
        }
        return all;
    }
}
