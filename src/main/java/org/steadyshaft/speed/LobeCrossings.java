package org.steadyshaft.speed;

import org.steadyshaft.numeric.Cubic;

/**
 * Rising crossings of a band-limited, well oversampled stream, with a hysteresis that follows the local level: between
 * two sign changes lies a lobe; a lobe is strong when its peak reaches a quarter of the highest among itself and its two
 * neighbours on either side; a crossing counts when it leads into a strong positive lobe and a strong negative one came
 * since the last that counted. So the threshold rises and falls with the signal, without memory of what was long before.
 * A crossing is placed between samples by the cubic through the four samples around it.
 */
final class LobeCrossings {
    /** Takes the times of the crossings, in order. */
    @FunctionalInterface
    interface Taker {
        void crossing(double timeSeconds);
    }

    /** Share of the local level that a lobe must reach. Practice: a quarter; harmonics are already filtered away. */
    static final double STRONG = 0.25;

    private static final int REACH = 2;
    private static final int KEPT = 2 * REACH + 1;

    private final double rateHz;
    private final double strong;
    private final Taker taker;
    private final double[] last = new double[3];
    private final double[] lobeStart = new double[KEPT];
    private final double[] lobePeak = new double[KEPT];
    private double peak;
    private double startSeconds;
    private boolean armed;

    /** @param strong share of the local level that a lobe must reach */
    LobeCrossings(double rateHz, double strong, Taker taker) {
        this.strong = strong;
        this.rateHz = rateHz;
        this.taker = taker;
    }

    /** Scans the next samples; {@code first} is the index of the first one in the stream. One pass, no allocation. */
    void scan(double[] samples, int count, long first) {
        double a = last[0];
        double b = last[1];
        double c = last[2];
        for (int i = 0; i < count; i++) {
            double d = samples[i];
            if (b < 0 != c < 0) {
                endLobe((first + i - 2 + crossingBetween(a, b, c, d)) / rateHz);
            }
            if (Math.abs(c) > Math.abs(peak)) {
                peak = c;
            }
            a = b;
            b = c;
            c = d;
        }
        last[0] = a;
        last[1] = b;
        last[2] = c;
    }

    /** Lets the last lobes through. */
    void finish() {
        for (int i = 0; i <= REACH; i++) {
            endLobe(startSeconds);
        }
    }

    /** Where between b (0) and c (1) the cubic through a, b, c, d at -1, 0, 1, 2 is zero: a few steps of regula falsi. */
    static double crossingBetween(double a, double b, double c, double d) {
        double low = 0;
        double high = 1;
        double atLow = b;
        double atHigh = c;
        double x = b / (b - c);
        for (int step = 0; step < 6; step++) {
            double y = Cubic.at(a, b, c, d, x);
            if (y < 0 == atLow < 0) {
                low = x;
                atLow = y;
            } else {
                high = x;
                atHigh = y;
            }
            double next = atLow == atHigh ? x : low + (high - low) * atLow / (atLow - atHigh);
            if (Math.abs(next - x) < 1e-12) {
                return next;
            }
            x = next;
        }
        return x;
    }

    private void endLobe(double seconds) {
        System.arraycopy(lobeStart, 1, lobeStart, 0, KEPT - 1);
        System.arraycopy(lobePeak, 1, lobePeak, 0, KEPT - 1);
        lobeStart[KEPT - 1] = startSeconds;
        lobePeak[KEPT - 1] = peak;
        startSeconds = seconds;
        peak = 0;
        judge(lobeStart[REACH], lobePeak[REACH]);
    }

    private void judge(double start, double height) {
        double level = 0;
        for (double neighbour : lobePeak) {
            level = Math.max(level, Math.abs(neighbour));
        }
        if (level == 0 || Math.abs(height) < strong * level) {
            return;
        }
        if (height < 0) {
            armed = true;
        } else if (armed) {
            armed = false;
            taker.crossing(start);
        }
    }
}
