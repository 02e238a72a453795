package org.steadyshaft.speed;

import org.steadyshaft.numeric.Cubic;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;

/**
 * The spectrum of a frame in which the speed changes. With time u from -1 to 1 across the frame, a speed proportional to
 * 1 + c u turns the shaft by u + c u^2 / 2; sampled evenly over that angle, every harmonic becomes a line again, and stands at
 * the frequency it has in the frame's middle. The sweep c that gives the sharpest spectrum is sought from coarse to fine:
 * spectra are compared smoothed over as many bins as the step of the search still leaves a line smeared.
 */
final class SweptSpectrum {
    /** Steps of the search, and how many to either side; the first covers what a frame can hold without standing still. */
    private static final double[] STEPS = {0.1, 0.03, 0.01, 0.003};

    private static final int[] REACH = {8, 3, 3, 3};

    /** Power around the strongest line over that in its main lobe from which a frame counts as smeared. */
    private static final double SMEARED = 2;

    /** A sweep is believed when it makes the spectrum sharper by this factor. */
    private static final double SHARPER = 1.3;

    private static final int FIRST_BIN = 3;
    private static final int LOBE_BINS = 2;

    private final int length;
    private final Window window;
    private final RealTransform transform;
    private final double[] work;
    private final double[] tried;
    private final double[] running;

    /** @param bins how many bins of the spectrum are looked at, from 0 on */
    SweptSpectrum(Window window, RealTransform transform, int bins) {
        this.length = window.length();
        this.window = window;
        this.transform = transform;
        this.work = new double[length];
        this.tried = new double[bins];
        this.running = new double[bins + 1];
    }

    /**
     * Replaces the power spectrum of a frame by that of the straightened frame, if the frame is smeared and a sweep explains it.
     *
     * @param power squared magnitudes of the windowed frame
     * @param noisePower mean power of a bin of noise
     * @return the sweep: change of the frequency from the frame's middle to its end, as a share of that in the middle; 0 where
     *     the spectrum was left as it is
     */
    double sharpen(double[] frame, double[] power, double noisePower) {
        int peak = highest(power);
        if (!isSmeared(power, peak, noisePower)) {
            return 0;
        }
        double best = 0;
        for (int level = 0; level < STEPS.length; level++) {
            int smooth = Math.max(1, (int) Math.round(STEPS[level] * peak));
            double start = best;
            double sharpest = -1;
            for (int step = -REACH[level]; step <= REACH[level]; step++) {
                double sweep = start + step * STEPS[level];
                if (Math.abs(sweep) < 0.9) {
                    straighten(frame, sweep);
                    double sharp = sharpness(tried, smooth, noisePower);
                    if (sharp > sharpest) {
                        sharpest = sharp;
                        best = sweep;
                    }
                }
            }
        }
        double before = sharpness(power, 1, noisePower);
        straighten(frame, best);
        if (sharpness(tried, 1, noisePower) > SHARPER * before) {
            System.arraycopy(tried, 0, power, 0, power.length);
            return best;
        }
        return 0;
    }

    private static int highest(double[] power) {
        int peak = FIRST_BIN;
        for (int k = FIRST_BIN; k < power.length - 1; k++) {
            peak = power[k] > power[peak] ? k : peak;
        }
        return peak;
    }

    /** Whether more power than the main lobe holds lies within a third of an octave or so around the strongest bin. */
    private static boolean isSmeared(double[] power, int peak, double noisePower) {
        int from = Math.max(FIRST_BIN, (int) (0.7 * peak) - 2);
        int to = Math.min(power.length - 2, (int) (1.4 * peak) + 2);
        double lobe = 0;
        double all = 0;
        for (int k = from; k <= to; k++) {
            all += power[k] - noisePower;
            lobe += Math.abs(k - peak) <= LOBE_BINS ? power[k] : 0;
        }
        return all > SMEARED * lobe;
    }

    /** Samples the frame evenly over the shaft's angle, by the cubic through four neighbours, and transforms it. */
    private void straighten(double[] frame, double sweep) {
        double half = 0.5 * (length - 1);
        for (int i = 0; i < length; i++) {
            double angle = (i - half) / half + 0.5 * sweep;
            double u = Math.abs(sweep) < 1e-6 ? angle : (Math.sqrt(Math.max(0, 1 + 2 * sweep * angle)) - 1) / sweep;
            double place = Math.max(1, Math.min(length - 2.001, half * (1 + u)));
            int at = (int) place;
            work[i] = Cubic.at(frame[at - 1], frame[at], frame[at + 1], frame[at + 2], place - at);
        }
        window.applyCentred(work, work);
        transform.forward(work);
        transform.power(work, tried);
    }

    /** Sum of squares over square of sum of the power above the noise, smoothed over some bins. */
    private double sharpness(double[] power, int smooth, double noisePower) {
        running[0] = 0;
        for (int k = 0; k < power.length; k++) {
            running[k + 1] = running[k] + (k < FIRST_BIN ? 0 : power[k]);
        }
        double squares = 0;
        for (int k = FIRST_BIN; k + smooth < running.length; k++) {
            double mean = (running[k + smooth] - running[k]) / smooth - noisePower;
            squares += mean > 0 ? mean * mean : 0;
        }
        double sum = running[power.length] - noisePower * power.length;
        return sum > 0 ? squares / (sum * sum) : 0;
    }
}
