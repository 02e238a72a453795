package org.steadyshaft.speed;

import org.steadyshaft.numeric.BandFilter;

/**
 * What white noise in the recording does to crossings found behind the band filter. The filter lets through a share of the
 * noise, so crossings move by sigma / (2 pi f A) with the sigma that is left; and since the band is hardly wider than the tacho
 * frequency, neighbouring crossings move together or against each other.
 */
final class CrossingNoise {
    private static final int STEPS = 4000;
    private static final double WIDEST = 2;

    /** Noise let through in units of the centre frequency: integral of the squared response. */
    private static final double BANDWIDTH = integral(0);

    /** Autocorrelation of the crossings' shifts at 0 to 3 periods, from the filter's response. */
    private static final double[] CORRELATION = correlations();

    private CrossingNoise() {}

    /**
     * Spectral density of the crossings' shifts over its mean, at a frequency given as a share of the cycle frequency, 0 to 1/2.
     */
    static double density(double share) {
        double sum = 1;
        for (int lag = 1; lag < CORRELATION.length; lag++) {
            sum += 2 * CORRELATION[lag] * Math.cos(2 * Math.PI * share * lag);
        }
        return sum;
    }

    /**
     * Standard deviation of a crossing from white noise [s].
     *
     * @param noiseRms noise in the unit of the samples
     * @param amplitude peak amplitude of the tacho
     */
    static double jitterSeconds(double noiseRms, double amplitude, double tachoHz, double sampleRateHz) {
        double share = Math.min(1, 2 * BANDWIDTH * tachoHz / sampleRateHz);
        return noiseRms * Math.sqrt(share) / (2 * Math.PI * tachoHz * amplitude);
    }

    private static double[] correlations() {
        double[] values = new double[4];
        double all = integral(0);
        for (int lag = 0; lag < values.length; lag++) {
            values[lag] = integral(lag) / all;
        }
        return values;
    }

    private static double integral(int lagPeriods) {
        double sum = 0;
        for (int i = 0; i < STEPS; i++) {
            double share = (i + 0.5) * WIDEST / STEPS;
            double gain = BandFilter.gain(share);
            sum += gain * gain * Math.cos(2 * Math.PI * share * lagPeriods);
        }
        return sum * WIDEST / STEPS;
    }
}
