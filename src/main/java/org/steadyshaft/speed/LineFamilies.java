package org.steadyshaft.speed;

import org.apache.commons.numbers.arrays.Selection;
import org.steadyshaft.numeric.HannPeak;
import org.steadyshaft.signal.FundamentalTrack;

/**
 * Finds in one power spectrum the lines that stand clear of the noise and how much of their power each of them would
 * explain as the fundamental of a family of harmonics. The strongest line need not be the fundamental: a second harmonic
 * can exceed it. Reuses its arrays from frame to frame.
 */
final class LineFamilies {
    /** Takes the lines that may be the fundamental. */
    interface Taker {
        /**
         * @param frequencyHz place of the line
         * @param magnitude its height in the spectrum
         * @param second height of the line at twice its frequency; 0 if none stands there
         * @param share part of the power of all lines that it explains with its harmonics, 0 to 1
         */
        void candidate(double frequencyHz, double magnitude, double share, double second);
    }

    /** Lines looked at in a frame, strongest first: a tacho has a few harmonics, hum a few more. */
    private static final int MOST_LINES = 24;

    private static final int MOST_CANDIDATES = 6;
    private static final int MOST_HARMONICS = 8;

    /**
     * A line counts when its power is this many times the median of its neighbourhood. White noise exceeds c medians with
     * chance 2^-c a bin: 40 medians means one false line in a million frames of a million bins.
     */
    private static final double CLEAR_OF_NOISE = 40;

    /** A fundamental has at least this share of the magnitude of the strongest line in its family. */
    private static final double WEAKEST_FUNDAMENTAL = 0.15;

    /** A Hann line is 4 bins wide; below bin 3 a line touches its image at negative frequencies. */
    private static final int FIRST_BIN = 3;

    private static final int LINE_HALF_WIDTH_BINS = 3;
    private static final double FAMILY_TOLERANCE = 0.006;

    /** Band around the mains frequency that is taken to be hum if anything else can be the tacho (49.8 to 50.2 Hz occur). */
    private static final double MAINS_TOLERANCE = 0.006;

    private static final double MAINS_DOUBT = 0.3;

    /**
     * Hardly a tacho is so fast, while converters whistle there (common practice): where slower lines, the mains aside, have this share of
     * the power of the fast ones, the fast ones are a whistle.
     */
    private static final double LEAST_BESIDE_RARE = 0.02;

    /** So many bins of noise give its power within 3 %. */
    private static final int MEDIAN_LOOKS = 2048;

    private final double binHz;
    private final double mainsHz;
    private final double lowestHz;
    private final double[] lineHz = new double[MOST_LINES];
    private final double[] lineMagnitude = new double[MOST_LINES];
    private int lines;
    private double[] scratch = new double[0];

    /** @param lowestBin no line below this bin is taken for the fundamental */
    LineFamilies(double binHz, double mainsHz, int lowestBin) {
        this.lowestHz = lowestBin * binHz;
        this.binHz = binHz;
        this.mainsHz = mainsHz;
    }

    /** Mean power of a bin of noise, from the median over the band (a median of exponential values is ln 2 of their mean). */
    double noisePower(double[] power) {
        return median(power, FIRST_BIN, power.length - 1) / Math.log(2);
    }

    void find(double[] power, Taker taker) {
        collectLines(power);
        double slow = 0;
        double rare = 0;
        for (int i = 0; i < lines; i++) {
            double square = lineMagnitude[i] * lineMagnitude[i];
            if (lineHz[i] > FundamentalTrack.RARE_HZ) {
                rare += square;
            } else if (!isAtMains(i)) {
                slow += square;
            }
        }
        boolean whistles = slow > LEAST_BESIDE_RARE * rare;
        double total = 0;
        for (int i = 0; i < lines; i++) {
            total += whistles && lineHz[i] > FundamentalTrack.RARE_HZ ? 0 : lineMagnitude[i] * lineMagnitude[i];
        }
        double highestHz = whistles ? FundamentalTrack.RARE_HZ : FundamentalTrack.HIGHEST_HZ;
        int given = 0;
        for (int i = 0; i < lines && given < MOST_CANDIDATES; i++) {
            double explained = explainedBy(i);
            if (explained > 0 && lineHz[i] >= lowestHz && lineHz[i] <= highestHz) {
                taker.candidate(
                        lineHz[i],
                        lineMagnitude[i],
                        Math.min(1, explained / total) * (isAtMains(i) ? MAINS_DOUBT : 1),
                        secondOf(i));
                given++;
            }
        }
    }

    private boolean isAtMains(int i) {
        return Math.abs(lineHz[i] - mainsHz) < Math.max(MAINS_TOLERANCE * mainsHz, 0.5 * binHz);
    }

    private double secondOf(int i) {
        for (int j = 0; j < lines; j++) {
            if (Math.abs(lineHz[j] - 2 * lineHz[i]) <= Math.max(1.5 * binHz, FAMILY_TOLERANCE * lineHz[j])) {
                return lineMagnitude[j];
            }
        }
        return 0;
    }

    /** Power of the family of line i; 0 where the line is too weak against its own harmonics. */
    private double explainedBy(int i) {
        double sum = 0;
        double strongest = 0;
        for (int j = 0; j < lines; j++) {
            long order = Math.round(lineHz[j] / lineHz[i]);
            double off = Math.abs(lineHz[j] - order * lineHz[i]);
            boolean member =
                    order >= 1 && order <= MOST_HARMONICS && off <= Math.max(1.5 * binHz, FAMILY_TOLERANCE * lineHz[j]);
            if (member) {
                sum += lineMagnitude[j] * lineMagnitude[j];
                strongest = Math.max(strongest, lineMagnitude[j]);
            }
        }
        return lineMagnitude[i] >= WEAKEST_FUNDAMENTAL * strongest ? sum : 0;
    }

    /** Local maxima clear of the median of their octave, strongest first. */
    private void collectLines(double[] power) {
        lines = 0;
        int last = power.length - 2;
        for (int from = FIRST_BIN; from <= last; from *= 2) {
            int to = Math.min(last + 1, 2 * from);
            int wide = Math.max(0, 32 - (to - from)) / 2;
            double floor = CLEAR_OF_NOISE
                    * Math.max(
                            median(power, Math.max(1, from - wide), Math.min(last + 1, to + wide)), Double.MIN_NORMAL);
            for (int k = from; k < to; k++) {
                if (power[k] > floor && power[k] > power[k - 1] && power[k] >= power[k + 1]) {
                    insert(HannPeak.at(power, k));
                }
            }
        }
    }

    /** Keeps the list sorted by height; of maxima closer than the width of a line only the highest stays. */
    private void insert(HannPeak peak) {
        double hz = peak.bin() * binHz;
        for (int i = 0; i < lines; i++) {
            if (Math.abs(lineHz[i] - hz) < LINE_HALF_WIDTH_BINS * binHz) {
                if (lineMagnitude[i] >= peak.magnitude()) {
                    return;
                }
                remove(i--);
            }
        }
        int place = lines;
        while (place > 0 && lineMagnitude[place - 1] < peak.magnitude()) {
            place--;
        }
        if (place == MOST_LINES) {
            return;
        }
        int moved = Math.min(lines, MOST_LINES - 1) - place;
        System.arraycopy(lineHz, place, lineHz, place + 1, moved);
        System.arraycopy(lineMagnitude, place, lineMagnitude, place + 1, moved);
        lineHz[place] = hz;
        lineMagnitude[place] = peak.magnitude();
        lines = Math.min(lines + 1, MOST_LINES);
    }

    private void remove(int i) {
        System.arraycopy(lineHz, i + 1, lineHz, i, lines - i - 1);
        System.arraycopy(lineMagnitude, i + 1, lineMagnitude, i, lines - i - 1);
        lines--;
    }

    /** Median of the bins from one to another; of many, every so many-th is looked at. */
    private double median(double[] power, int from, int to) {
        int stride = Math.max(1, (to - from) / MEDIAN_LOOKS);
        scratch = scratch.length == 0 ? new double[2 * MEDIAN_LOOKS] : scratch;
        int count = 0;
        for (int k = from; k < to; k += stride) {
            scratch[count++] = power[k];
        }
        Selection.select(scratch, 0, count, count / 2);
        return scratch[count / 2];
    }
}
