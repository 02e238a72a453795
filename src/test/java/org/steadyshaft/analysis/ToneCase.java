package org.steadyshaft.analysis;

import java.util.SplittableRandom;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.simulate.ShaftAngle;

/**
 * A capture of constant speed in white noise, rounded to a number of bits of full scale 1.
 *
 * @param bits of the recorder, 2 to 32
 * @param snrDb power of the fundamental over that of the noise in the whole band; infinite for none
 * @param tachoHz nominal frequency; each capture draws its own within 3 % of it
 */
record ToneCase(double sampleRateHz, int bits, double snrDb, double tachoHz, double lengthSeconds) {
    static final ToneCase BASE = new ToneCase(48000, 16, 40, 213, 10);

    /** With noise of 10 dB five standard deviations still fit into full scale, so nothing is cut. */
    private static final double PEAK = 0.4;

    /** Keeps the frequency from any special relation to sample rate and length, and 47 Hz clear of the mains. */
    private static final double FREQUENCY_REACH = 0.03;

    private static final double SECOND_SHARE = 0.03;
    private static final double THIRD_SHARE = 0.05;
    private static final Tachometer TACHOMETER = new Tachometer(8);

    ToneCase {
        if (!(sampleRateHz > 2 * tachoHz) || !(tachoHz > 0) || !(lengthSeconds > 0) || bits < 2 || bits > 32) {
            throw new IllegalArgumentException(
                    sampleRateHz + " Hz, " + bits + " bit, " + tachoHz + " Hz, " + lengthSeconds + " s");
        }
    }

    ToneCase withRate(double hz) {
        return new ToneCase(hz, bits, snrDb, tachoHz, lengthSeconds);
    }

    ToneCase withBits(int count) {
        return new ToneCase(sampleRateHz, count, snrDb, tachoHz, lengthSeconds);
    }

    ToneCase withSnr(double db) {
        return new ToneCase(sampleRateHz, bits, db, tachoHz, lengthSeconds);
    }

    ToneCase withTacho(double hz) {
        return new ToneCase(sampleRateHz, bits, snrDb, hz, lengthSeconds);
    }

    ToneCase withLength(double seconds) {
        return new ToneCase(sampleRateHz, bits, snrDb, tachoHz, seconds);
    }

    /** A shaft that turns evenly from any angle on. */
    private record EvenShaft(double rpm, double startTurns) implements ShaftAngle {
        @Override
        public double rpm(double timeSeconds) {
            return rpm;
        }

        @Override
        public double turns(double timeSeconds) {
            return startTurns + rpm / 60 * timeSeconds;
        }
    }

    /** A capture and the speed that is true of it. */
    record Drawn(SampleSource source, double rpm) {}

    /** Same seed, same capture; frequency, starting angle and noise differ between seeds. */
    Drawn draw(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double hz = tachoHz * (1 + FREQUENCY_REACH * (2 * random.nextDouble() - 1));
        double rpm = TACHOMETER.rpm(hz);
        Settings settings = Settings.clean(sampleRateHz, lengthSeconds)
                .withTachometer(TACHOMETER)
                .withShape(PEAK * 1000 / rpm, SECOND_SHARE, THIRD_SHARE)
                .withNoise(noiseRms(), random.nextLong());
        DrawnTacho tacho = new DrawnTacho("seed " + seed, new EvenShaft(rpm, random.nextDouble()), settings);
        return new Drawn(new Quantised(tacho, bits, 1), rpm);
    }

    private double noiseRms() {
        return PEAK / Math.sqrt(2) * Math.pow(10, -snrDb / 20);
    }

    /**
     * Least standard deviation that any unbiased estimate of the frequency can have, relative [ppm]: the square root of
     * 12 fs^2 / ((2 pi)^2 eta N (N^2 - 1)) over f, with eta = A^2 / (2 s^2) (Rife and Boorstyn 1974, Kay 1993; formula from
     * memory). s^2 takes in q^2 / 12 for rounding to steps of q, as if that were white noise. What the harmonics tell (1.3 %
     * of the bound) is left out.
     */
    double boundPpm() {
        double step = 1.0 / (1L << (bits - 1));
        double variance = noiseRms() * noiseRms() + step * step / 12;
        double eta = PEAK * PEAK / (2 * variance);
        double samples = Math.rint(lengthSeconds * sampleRateHz);
        double hz = sampleRateHz / (2 * Math.PI) * Math.sqrt(12 / (eta * samples * (samples * samples - 1)));
        return 1e6 * hz / tachoHz;
    }
}
