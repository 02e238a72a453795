package org.steadyshaft.front;

import org.steadyshaft.numeric.Decimator;
import org.steadyshaft.signal.FundamentalTrack;

/**
 * How far the rate of a channel is lowered before anything is measured on it: in one step by 2, 4 or 8, or in two, the first by 8. The
 * rate stays high enough for some tens of samples a period of the highest tacho frequency and for its first harmonics.
 *
 * @param first factor of the first step; 1 for none
 * @param second factor of the second step; 1 for none
 */
public record RatePlan(int first, int second) {
    static final RatePlan FULL_RATE = new RatePlan(1, 1);

    /** One step alone needs a steep edge; before a second one, only what falls on the last band must be clean. */
    static final int ONLY_TAPS = 16;

    static final int FIRST_TAPS = 12;
    static final int SECOND_TAPS = 26;

    private static final int STEP = 8;
    private static final int MOST_FACTOR = STEP * STEP;

    /** So few samples are not worth it. */
    private static final long FEWEST_SAMPLES = 1 << 16;

    private static final double SAMPLES_A_PERIOD = 24;

    /** The fourth harmonic, and beside it the sidebands and hum at multiples of the mains up to 300 Hz. */
    private static final double HARMONICS = 4.2;

    private static final double BESIDE_HZ = 300;

    /** Where nothing was seen: room for the highest tacho that is looked for and a fifth. */
    private static final double UNSEEN_HZ = 1.2 * FundamentalTrack.HIGHEST_HZ;

    public RatePlan {
        boolean known = first == 1 ? second == 1 : first == 2 || first == 4 || first == STEP;
        if (!known || (second != 1 && first != STEP) || second < 1 || second > STEP || Integer.bitCount(second) != 1) {
            throw new IllegalArgumentException("rate lowered by " + first + " and " + second);
        }
    }

    /**
     * The plan for a channel.
     *
     * @param highestHz highest frequency that may be the tacho's; 0 if none was seen
     */
    static RatePlan of(double sampleRateHz, long samples, double highestHz) {
        double leastRateHz = highestHz > 0 ? SAMPLES_A_PERIOD * highestHz : 2 * UNSEEN_HZ;
        double leastCleanHz = highestHz > 0 ? HARMONICS * highestHz + BESIDE_HZ : UNSEEN_HZ;
        for (int factor = MOST_FACTOR; factor > 1 && samples > FEWEST_SAMPLES; factor /= 2) {
            RatePlan plan = factor > STEP ? new RatePlan(STEP, factor / STEP) : new RatePlan(factor, 1);
            if (sampleRateHz / factor >= leastRateHz && plan.cleanHz(sampleRateHz) >= leastCleanHz) {
                return plan;
            }
        }
        return FULL_RATE;
    }

    public int factor() {
        return first * second;
    }

    /** Up to here the waveform stays as it is. */
    double cleanHz(double sampleRateHz) {
        if (first == 1) {
            return 0.5 * sampleRateHz;
        }
        if (second == 1) {
            return Decimator.cleanShare(ONLY_TAPS) * sampleRateHz / first;
        }
        return Math.min(
                Decimator.cleanShare(FIRST_TAPS) * sampleRateHz / first,
                Decimator.cleanShare(SECOND_TAPS) * sampleRateHz / factor());
    }
}
