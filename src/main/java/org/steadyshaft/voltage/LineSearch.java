package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;

/**
 * Seeks what the columns do not hold yet: peaks of the rest's spectrum that stand clear of the noise, the largest first. A speed line
 * also lifts the places where another line would share a sideband with it; such ghosts go when their line is fitted, so a place that may
 * be one waits for the next round. A peak that a single tone explains as well is a tone in the recording and no speed.
 */
final class LineSearch {
    /** Chance that noise alone shows a line anywhere in one recording's spectrum. */
    private static final double FALSE_CHANCE = 0.001;

    /** Smaller lines matter to no shaft [% of the mean speed]. Our own figure. */
    private static final double SMALLEST_PERCENT = 0.005;

    /** What is smaller than this share of the largest line may be what the model bends. Our own figure. */
    private static final double SMALLEST_SHARE = 0.004;

    /** New lines a round. */
    private static final int MOST_A_ROUND = 4;

    /** Nothing is sought within so many widths of what is fitted. */
    private static final double WIDTHS_TAKEN = 3;

    /** A tone that explains this share of what the line does is as good: the line has no second sideband that agrees. */
    private static final double AS_GOOD = 0.9;

    private static final int SIDEBAND_HARMONICS = 3;

    /** Wander of the speed reaches so many times the lowest frequency of lines to either side of the tacho's harmonics. Our own figure. */
    private static final double SLOW_REACH = 3;

    /** A tone that wanders has a skirt of so many widths. Our own figure. */
    private static final double SKIRT_WIDTHS = 6;

    private final Orders orders;
    private final FitPlan plan;
    private final int polePairs;
    private final double fromHz;
    private final double toHz;

    LineSearch(Orders orders, FitPlan plan, int polePairs, double fromHz, double toHz) {
        this.orders = orders;
        this.plan = plan;
        this.polePairs = polePairs;
        this.fromHz = fromHz;
        this.toHz = toHz;
    }

    /** What a round brings. */
    record Found(List<Double> lineHz, List<Double> toneHz) {}

    /** @param largestPercent largest line known so far */
    Found find(RestSpectrum spectrum, Columns columns, double largestPercent) {
        double width = WIDTHS_TAKEN * spectrum.widthHz();
        double clear = spectrum.clear(FALSE_CHANCE);
        List<Integer> peaks = new ArrayList<>();
        int first = (int) Math.max(2, Math.ceil(fromHz / spectrum.binHz()));
        int end = (int) Math.min(spectrum.bins() - 1.0, Math.floor(toHz / spectrum.binHz()));
        double least = Math.max(SMALLEST_PERCENT, SMALLEST_SHARE * largestPercent);
        for (int k = first; k < end; k++) {
            double height = spectrum.speedHeight(k);
            boolean peak = height > spectrum.speedHeight(k - 1)
                    && height >= spectrum.speedHeight(k + 1)
                    && spectrum.amplitudePercent(k) > least;
            double hz = k * spectrum.binHz();
            if (peak && !taken(hz, columns, width) && !orders.near(hz) && !isSlow(hz) && !plan.isLeftOut(hz, width)) {
                double noise = spectrum.speedNoise(hz, f -> taken(f, columns, width) || orders.near(f));
                if (height > clear * noise && !orders.isSkirt(hz, spectrum::speedHeight)) {
                    peaks.add(k);
                }
            }
        }
        peaks.sort((a, b) -> Double.compare(spectrum.speedHeight(b), spectrum.speedHeight(a)));
        return sorted(spectrum, columns, peaks, width, largestPercent);
    }

    /**
     * Amplitude [%] of the largest that is left where no line that is asked stands, no order and no place that shares a sideband with such a
     * line.
     *
     * @param asked the lines that are asked
     */
    double largestOther(RestSpectrum spectrum, Columns asked) {
        double width = WIDTHS_TAKEN * spectrum.widthHz();
        int first = (int) Math.max(2, Math.ceil(fromHz / spectrum.binHz()));
        int end = (int) Math.min(spectrum.bins() - 1.0, Math.floor(toHz / spectrum.binHz()));
        double largest = 0;
        for (int k = first; k < end; k++) {
            double hz = k * spectrum.binHz();
            double percent = spectrum.amplitudePercent(k);
            if (percent > largest && !taken(hz, asked, width) && !orders.near(hz) && !isGhost(asked, hz, width)) {
                largest = percent;
            }
        }
        return largest;
    }

    private Found sorted(
            RestSpectrum spectrum, Columns columns, List<Integer> peaks, double width, double largestPercent) {
        List<Double> taken = new ArrayList<>();
        Found found = new Found(new ArrayList<>(), new ArrayList<>());
        for (int k : peaks) {
            double hz = spectrum.speedPeakHz(k * spectrum.binHz(), spectrum.binHz());
            boolean waits = taken.stream().anyMatch(t -> Math.abs(t - hz) < width || isGhost(t, hz, width, 1));
            if (waits || isLeftGhost(spectrum, k, columns, width, largestPercent) || taken.size() >= MOST_A_ROUND) {
                continue;
            }
            double tone = bestTone(spectrum, hz);
            boolean asTone = spectrum.toneHeight(tone) > AS_GOOD * spectrum.speedHeight(hz);
            if (asTone && (isSlow(tone) || orders.near(tone) || isFitted(tone, columns, spectrum))) {
                continue;
            }
            taken.add(hz);
            if (asTone) {
                found.toneHz.add(spectrum.tonePeakHz(tone, 0.5 * spectrum.widthHz()));
            } else {
                found.lineHz.add(hz);
            }
        }
        return found;
    }

    /**
     * Whether a frequency stands so near to a harmonic of the tacho that a slow swing or wander of the speed, which the smooth angle did
     * not follow, shows there.
     */
    private boolean isSlow(double hz) {
        double cycleHz = polePairs * orders.shaftHz();
        double harmonic = Math.rint(hz / cycleHz);
        return harmonic > 0 && Math.abs(hz - cycleHz * harmonic) < SLOW_REACH * fromHz;
    }

    /** Whether a tone is the skirt of one that is fitted: it wandered. */
    private static boolean isFitted(double tone, Columns columns, RestSpectrum spectrum) {
        for (int j = 0; j < columns.humHz().size(); j++) {
            if (Math.abs(columns.humHz().get(j) - tone) < SKIRT_WIDTHS * spectrum.widthHz()) {
                return true;
            }
        }
        return false;
    }

    static boolean taken(double hz, Columns columns, double width) {
        for (int j = 0; j < columns.lineHz().size(); j++) {
            if (Math.abs(columns.lineHz().get(j) - hz) < width) {
                return true;
            }
        }
        return false;
    }

    /** Whether a peak may be what larger lines leave at the places they share sidebands with, since their level comes through bent. */
    private boolean isLeftGhost(RestSpectrum spectrum, int bin, Columns columns, double width, double largestPercent) {
        return columns.response() != LineResponse.TRUE
                && spectrum.amplitudePercent(bin) < largestPercent
                && isGhost(columns, bin * spectrum.binHz(), width);
    }

    /** Whether a frequency shares a sideband of one of the tacho's harmonics with a line of the columns. */
    private boolean isGhost(Columns columns, double hz, double width) {
        for (int j = 0; j < columns.lineHz().size(); j++) {
            if (isGhost(columns.lineHz().get(j), hz, width, polePairs)) {
                return true;
            }
        }
        return false;
    }

    /**
     * Whether a line at {@code hz} shares a sideband with one at {@code line}.
     *
     * @param step 1 for the sidebands of every order of the shaft, the pole pairs for those of the tacho's harmonics alone
     */
    private boolean isGhost(double line, double hz, double width, int step) {
        for (int order = step; order <= 2 * SIDEBAND_HARMONICS * polePairs; order += step) {
            double at = order * orders.shaftHz();
            if (Math.abs(Math.abs(at - line) - hz) < width || Math.abs(at + line - hz) < width) {
                return true;
            }
        }
        return false;
    }

    /** The sideband at which a tone explains most. */
    private double bestTone(RestSpectrum spectrum, double hz) {
        double best = hz;
        for (int harmonic = 1; harmonic <= SIDEBAND_HARMONICS; harmonic++) {
            double centre = harmonic * polePairs * orders.shaftHz();
            for (double at : new double[] {Math.abs(centre - hz), centre + hz}) {
                if (at < spectrum.topHz()
                        && at > 2 * spectrum.widthHz()
                        && spectrum.toneHeight(at) > spectrum.toneHeight(best)) {
                    best = at;
                }
            }
        }
        return best;
    }
}
