package org.steadyshaft.voltage;

import org.steadyshaft.signal.CycleTimes;

/**
 * The shaft's angle over an unbroken row of cycles, smooth in time. The middles of whole turns (the mean of as many crossings as there are
 * pole pairs, from which the poles' spacing drops out) are joined by straight lines and smoothed by a fixed linear filter: four running
 * means, used three times so that slow swings pass whole. A swing at f passes by {@link #gain}; what is left of it, one less the gain, is
 * in the waveform's lines, whose size is made good by just that.
 */
final class SmoothAngle {
    private static final double TURN = 2 * Math.PI;

    /** Grid points to a running mean; even, so that four of them shift by whole points. */
    private static final int POINTS = 8;

    private static final int MEANS = 4;
    private static final int PASSES = 3;

    private final double fromSeconds;
    private final double toSeconds;
    private final double stepSeconds;
    private final double turnSeconds;
    private final double meanRadPerSecond;
    private final double[] rest;

    private SmoothAngle(
            double fromSeconds,
            double toSeconds,
            double stepSeconds,
            double turnSeconds,
            double meanRadPerSecond,
            double[] rest) {
        this.fromSeconds = fromSeconds;
        this.toSeconds = toSeconds;
        this.stepSeconds = stepSeconds;
        this.turnSeconds = turnSeconds;
        this.meanRadPerSecond = meanRadPerSecond;
        this.rest = rest;
    }

    /**
     * @param first index of the first crossing of the row
     * @param crossings how many there are, at least four more than pole pairs
     * @param meanSeconds length of a running mean; above 0
     */
    static SmoothAngle through(CycleTimes cycles, int first, int crossings, int polePairs, double meanSeconds) {
        int turns = crossings - polePairs + 1;
        double[] middle = new double[turns];
        double sum = 0;
        for (int i = 0; i < crossings; i++) {
            sum += cycles.timeSeconds(first + i) - cycles.timeSeconds(first);
            if (i >= polePairs - 1) {
                middle[i - polePairs + 1] = cycles.timeSeconds(first) + sum / polePairs;
                sum -= cycles.timeSeconds(first + i - polePairs + 1) - cycles.timeSeconds(first);
            }
        }
        double from = middle[0];
        double to = middle[turns - 1];
        double mean = TURN / polePairs * (turns - 1) / (to - from);
        int intervals = (int) Math.max(2 * POINTS, Math.ceil((to - from) * POINTS / meanSeconds));
        double step = (to - from) / intervals;
        double[] rest = grid(middle, TURN / polePairs, mean, step, intervals);
        double[] smooth = new double[rest.length];
        for (int pass = 0; pass < PASSES; pass++) {
            double[] left = new double[rest.length];
            for (int i = 0; i < left.length; i++) {
                left[i] = rest[i] - smooth[i];
            }
            double[] add = smoothed(left);
            for (int i = 0; i < left.length; i++) {
                smooth[i] += add[i];
            }
        }
        return new SmoothAngle(from, to, step, TURN / mean, mean, smooth);
    }

    /** Angle less a steady turning, at even times, on straight lines between the middles. */
    private static double[] grid(double[] middle, double perCycle, double mean, double step, int intervals) {
        double[] rest = new double[intervals + 1];
        int right = 1;
        for (int i = 0; i <= intervals; i++) {
            double at = middle[0] + i * step;
            while (right < middle.length - 1 && middle[right] < at) {
                right++;
            }
            double share = (at - middle[right - 1]) / (middle[right] - middle[right - 1]);
            rest[i] = perCycle * (right - 1 + share) - mean * (at - middle[0]);
        }
        return rest;
    }

    /** Four running means; beyond its ends the row goes on as it came, turned about its last point. */
    private static double[] smoothed(double[] values) {
        int reach = MEANS * POINTS / 2;
        int n = values.length;
        double[] wide = new double[n + 2 * reach];
        for (int i = 0; i < wide.length; i++) {
            int at = i - reach;
            wide[i] = at < 0
                    ? 2 * values[0] - values[Math.min(n - 1, -at)]
                    : at >= n ? 2 * values[n - 1] - values[Math.max(0, 2 * n - 2 - at)] : values[at];
        }
        int length = wide.length;
        for (int mean = 0; mean < MEANS; mean++) {
            length -= POINTS - 1;
            for (int i = 0; i < length; i++) {
                double sum = 0;
                for (int j = 0; j < POINTS; j++) {
                    sum += wide[i + j];
                }
                wide[i] = sum / POINTS;
            }
        }
        // four means of eight points shift by 14; the wide row begins 16 before
        double[] out = new double[n];
        int shift = reach - MEANS * (POINTS - 1) / 2;
        System.arraycopy(wide, shift, out, 0, n);
        return out;
    }

    double fromSeconds() {
        return fromSeconds;
    }

    double turnSeconds() {
        return turnSeconds;
    }

    double toSeconds() {
        return toSeconds;
    }

    /** What passes of a swing of the angle at a frequency [Hz]. */
    double gain(double hz) {
        double mean = Math.pow(mean(hz, POINTS), MEANS);
        double passes = 1 - Math.pow(1 - mean, PASSES);
        double turn = sinc(hz * turnSeconds);
        return passes * turn * Math.pow(sinc(hz * stepSeconds), 4);
    }

    private double mean(double hz, int points) {
        double half = Math.PI * hz * stepSeconds;
        return Math.abs(half) < 1e-9 ? 1 : Math.sin(points * half) / (points * Math.sin(half));
    }

    private static double sinc(double turns) {
        return Math.abs(turns) < 1e-9 ? 1 : Math.sin(Math.PI * turns) / (Math.PI * turns);
    }

    /**
     * Angle [rad] and its change [rad/s] at even times inside the row: a cubic B-spline with the grid's values.
     *
     * @param firstSeconds time of index 0
     */
    void fill(double firstSeconds, double sampleSeconds, double[] angle, double[] radPerSecond) {
        int last = rest.length - 1;
        for (int i = 0; i < angle.length; i++) {
            double after = firstSeconds + i * sampleSeconds - fromSeconds;
            double place = after / stepSeconds;
            int at = (int) Math.max(0, Math.min(last - 1.0, place));
            double u = place - at;
            double c0 = at > 0 ? rest[at - 1] : 2 * rest[0] - rest[1];
            double c1 = rest[at];
            double c2 = rest[at + 1];
            double c3 = at + 2 <= last ? rest[at + 2] : 2 * rest[last] - rest[last - 1];
            double a0 = (c0 + 4 * c1 + c2) / 6;
            double a1 = 0.5 * (c2 - c0);
            double a2 = 0.5 * (c0 - 2 * c1 + c2);
            double a3 = (c3 - c0 + 3 * (c1 - c2)) / 6;
            angle[i] = meanRadPerSecond * after + a0 + u * (a1 + u * (a2 + u * a3));
            radPerSecond[i] = meanRadPerSecond + (a1 + u * (2 * a2 + 3 * a3 * u)) / stepSeconds;
        }
    }
}
