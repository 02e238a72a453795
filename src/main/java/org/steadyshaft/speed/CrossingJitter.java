package org.steadyshaft.speed;

import java.util.Arrays;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.SpeedTrack;

/**
 * How much a single crossing is off. Third differences of the crossing times, pattern removed, know nothing of slow changes of the
 * speed; the median of their spectrum, freed of the differences' own response and of the filter's correlation, knows nothing
 * of ripple lines either. What is left is noise.
 */
final class CrossingJitter {
    /** Third differences in one spectrum; the median over the spectra is taken, so memory stays small. */
    private static final int MOST = 4096;

    private static final int FEWEST = 32;

    /** Below this share of the cycle frequency the third difference leaves too little to look at. */
    private static final double LOWEST = 0.15;

    /** With too few cycles to tell, a crossing is taken to be off by this share of a cycle. */
    private static final double UNKNOWN_SHARE = 0.01;

    private CrossingJitter() {}

    /** Standard deviation of one crossing [s]. */
    static double seconds(SpeedTrack track) {
        int length = MOST;
        while (length > FEWEST && length > track.size() - 2) {
            length /= 2;
        }
        Spectrum spectrum = new Spectrum(length);
        double[] third = new double[length];
        double[] estimates = new double[Math.max(1, track.size() / length)];
        int found = 0;
        int filled = 0;
        for (int i = 1; i + 1 < track.size() && found < estimates.length; i++) {
            if (!track.follows(i) || !track.follows(i + 1)) {
                filled = 0;
                continue;
            }
            // lengths as they would be at even poles and constant speed: second differences of these are third ones of
            // times
            double scale = track.durationSeconds(i) * track.speedRpm(i);
            third[filled++] = scale * (1 / track.speedRpm(i + 1) - 2 / track.speedRpm(i) + 1 / track.speedRpm(i - 1));
            if (filled == length) {
                estimates[found++] = Math.sqrt(spectrum.variance(third));
                filled = 0;
            }
        }
        return found > 0 ? Robust.median(Arrays.copyOf(estimates, found)) : UNKNOWN_SHARE * track.durationSeconds(0);
    }

    /** The median of a spectrum, with all that depends on its length alone. */
    private static final class Spectrum {
        private final Window window;
        private final RealTransform transform;
        private final double[] work;
        private final double[] power;
        private final int from;
        private final double[] response;
        private final double[] density;
        private final double[] level;

        Spectrum(int length) {
            window = Window.of(CosineWindow.HANN, length);
            transform = new RealTransform(length);
            work = new double[length];
            power = new double[length / 2 + 1];
            from = (int) Math.ceil(LOWEST * length);
            level = new double[length / 2 - from];
            response = new double[level.length];
            density = new double[level.length];
            for (int k = 0; k < level.length; k++) {
                double share = (double) (from + k) / length;
                response[k] = Math.pow(2 * Math.sin(Math.PI * share), 6);
                density[k] = CrossingNoise.density(share);
            }
        }

        double variance(double[] third) {
            window.applyCentred(third, work);
            transform.forward(work);
            transform.power(work, power);
            for (int k = 0; k < level.length; k++) {
                level[k] = power[from + k] / response[k] / density[k];
            }
            return Robust.median(level) / Math.log(2) / window.sumOfSquares();
        }
    }
}
