package org.steadyshaft.speed;

import java.util.Random;

/**
 * A made record of a few cycles: fundamental, second and third harmonic, offset, white noise, a converter of so many bits.
 *
 * @param cycles in the record
 * @param bits of the converter
 * @param noiseDecibels of the tone's power over that of the noise
 * @param samples in the record
 * @param ripple share by which the speed swings at a random frequency
 * @param hum mains pick-up as a share of the tone
 */
record ShortRecord(double cycles, int bits, double noiseDecibels, int samples, double ripple, double hum) {
    static final double RATE_HZ = 50_000;

    double trueHz() {
        return cycles * RATE_HZ / samples;
    }

    double step() {
        return 2.0 / (1 << bits);
    }

    double[] draw(Random random) {
        double amplitude = 0.3 + 0.6 * random.nextDouble();
        double second = 0.05 * random.nextDouble();
        double third = 0.03 * random.nextDouble();
        double[] phase = random.doubles(5, 0, 2 * Math.PI).toArray();
        double offset = 0.05 * random.nextGaussian();
        double noise = amplitude / Math.sqrt(2) * Math.pow(10, -noiseDecibels / 20);
        double seconds = samples / RATE_HZ;
        double rippleHz = (1 + 4 * random.nextDouble()) / seconds;
        double[] values = new double[samples];
        for (int i = 0; i < samples; i++) {
            double t = i / RATE_HZ;
            double turns = trueHz() * t
                    + swing(t, rippleHz, phase[3])
                    - swing(0, rippleHz, phase[3])
                    - t / seconds * (swing(seconds, rippleHz, phase[3]) - swing(0, rippleHz, phase[3]));
            double angle = 2 * Math.PI * turns + phase[0];
            double value = offset
                    + amplitude
                            * (Math.sin(angle)
                                    + second * Math.sin(2 * angle + phase[1])
                                    + third * Math.sin(3 * angle + phase[2])
                                    + hum * Math.sin(2 * Math.PI * 50 * t + phase[4]))
                    + noise * random.nextGaussian();
            values[i] = Math.max(-1, Math.min(1 - step(), Math.rint(value / step()) * step()));
        }
        return values;
    }

    /** Cycles by which a swing of the speed leads the mean. */
    private double swing(double t, double rippleHz, double phase) {
        return -ripple * trueHz() / (2 * Math.PI * rippleHz) * Math.cos(2 * Math.PI * rippleHz * t + phase);
    }
}
