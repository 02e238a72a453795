package org.steadyshaft.analysis;

import java.util.Random;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/**
 * A capture whose speed swings at one frequency, over a pole pattern and a wander.
 *
 * @param tachoHz nominal tacho frequency
 * @param tachoReachShare each capture draws its own tacho frequency within this share of it
 * @param lineHz nominal frequency of the swing
 * @param lineReachShare each capture draws its own frequency of the swing within this share of it
 * @param percent amplitude of the swing, 0 to peak; 0 for none
 * @param snrDb power of the fundamental over that of the noise, as {@link #settings} counts it
 * @param wanderPercent rms
 */
record SwingCase(
        double tachoHz,
        double tachoReachShare,
        double lineHz,
        double lineReachShare,
        double percent,
        double snrDb,
        double wanderPercent,
        double lengthSeconds) {
    /** Keeps the frequency from any special relation to sample rate and length. */
    static final double TACHO_REACH = 0.01;

    static final SwingCase RIPPLE = new SwingCase(200, TACHO_REACH, 20, 0.01, 0.5, 45, 0.05, 30);

    /** The ripple's lower sideband of the tacho, 150 Hz, lies where the third multiple of the mains would. */
    static final SwingCase AT_MAINS_MULTIPLE = new SwingCase(173.3, 0.0005, 23.3, 0.002, 0.5, 45, 0.05, 30);

    /** Faster than half the tacho frequency. */
    static final SwingCase FAST = new SwingCase(150, TACHO_REACH, 100, 0.001, 0.5, 45, 0.1, 30);

    static final SwingCase HUNTING = new SwingCase(300, TACHO_REACH, 1.3, 0.01, 1, 45, 0.05, 30);
    static final SwingCase NONE = new SwingCase(120, TACHO_REACH, 20, 0.01, 0, 45, 0.05, 30);

    static final int POLE_PAIRS = 8;

    private static final double AMPLITUDE = 0.5;

    /** White noise is counted in half of this rate; a faster recording has as much of it in each hertz. */
    static final double COUNTED_RATE_HZ = 2500;

    private static final double FAST_RATE_HZ = 8000;

    /** Tachos faster than this are recorded at the fast rate, so that their third harmonic is not folded. */
    private static final double FAST_FROM_HZ = 400;

    /** A swing so close to an order of the shaft cannot be told from the pole pattern. */
    private static final double LEAST_FROM_ORDER_HZ = 0.5;

    SwingCase {
        if (!(tachoHz > 0) || !(lineHz > 0) || !(percent >= 0) || !(wanderPercent >= 0) || !(lengthSeconds > 0)) {
            throw new IllegalArgumentException(tachoHz + " Hz, " + lineHz + " Hz, " + percent + " %");
        }
    }

    SwingCase withTacho(double hz) {
        return new SwingCase(hz, tachoReachShare, lineHz, lineReachShare, percent, snrDb, wanderPercent, lengthSeconds);
    }

    SwingCase withLine(double hz) {
        return new SwingCase(
                tachoHz, tachoReachShare, hz, lineReachShare, percent, snrDb, wanderPercent, lengthSeconds);
    }

    SwingCase withSize(double sizePercent) {
        return new SwingCase(
                tachoHz, tachoReachShare, lineHz, lineReachShare, sizePercent, snrDb, wanderPercent, lengthSeconds);
    }

    SwingCase withSnr(double db) {
        return new SwingCase(
                tachoHz, tachoReachShare, lineHz, lineReachShare, percent, db, wanderPercent, lengthSeconds);
    }

    SwingCase withWander(double rmsPercent) {
        return new SwingCase(
                tachoHz, tachoReachShare, lineHz, lineReachShare, percent, snrDb, rmsPercent, lengthSeconds);
    }

    /** A capture and what is true of it. */
    record Drawn(SampleSource source, double tachoHz, double lineHz, double percent) {}

    /** Same seed, same capture. */
    Drawn draw(long seed) {
        Random random = Seeds.random(seed);
        double hz;
        double line;
        do {
            hz = near(random, tachoHz, tachoReachShare);
            line = near(random, lineHz, lineReachShare);
        } while (percent > 0 && isAtShaftOrder(line, hz / POLE_PAIRS));
        double rpm = new Tachometer(POLE_PAIRS).rpm(hz);
        DrawnSpeed speed = DrawnSpeed.level(rpm);
        if (percent > 0) {
            speed = speed.line(line, percent, 2 * Math.PI * random.nextDouble());
        }
        speed = Seeds.wander(speed, random, wanderPercent, lengthSeconds);
        Settings settings = settings(tachoHz, rpm, snrDb, lengthSeconds, random.nextLong());
        return new Drawn(new DrawnTacho("seed " + seed, speed, settings), hz, line, percent);
    }

    private static boolean isAtShaftOrder(double hz, double shaftHz) {
        double order = Math.rint(hz / shaftHz);
        return order >= 1 && Math.abs(hz - order * shaftHz) < LEAST_FROM_ORDER_HZ;
    }

    /** Within a share of a value to either side. */
    static double near(Random random, double value, double share) {
        return value * Seeds.between(random, 1 - share, 1 + share);
    }

    /** A tacho of uneven poles in white noise, whose power is {@code snrDb} below the fundamental up to half the counted rate. */
    static Settings settings(double tachoHz, double rpm, double snrDb, double seconds, long seed) {
        double rateHz = tachoHz > FAST_FROM_HZ ? FAST_RATE_HZ : COUNTED_RATE_HZ;
        double noise = AMPLITUDE / Math.sqrt(2) * Math.pow(10, -snrDb / 20) * Math.sqrt(rateHz / COUNTED_RATE_HZ);
        return Settings.clean(rateHz, seconds)
                .withTachometer(new Tachometer(POLE_PAIRS))
                .withPattern(1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2)
                .withShape(AMPLITUDE * 1000 / rpm, 0.03, 0.05)
                .withNoise(noise, seed);
    }
}
