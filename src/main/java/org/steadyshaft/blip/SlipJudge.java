package org.steadyshaft.blip;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.ColumnFit;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Asks the waveform about a few cycles of which one is odd: did the phase jump, at once and at one speed, or did the speed change and come
 * back? Both are fitted with the tacho's first harmonics over a phase that runs evenly but for the one or the other; the sizes come from the
 * crossings, places and times are tried.
 */
final class SlipJudge {
    private static final int HARMONICS = 3;

    /** Cycles of the window on either side of the odd ones. */
    private static final double BESIDE = 3.5;

    private static final double LEAST_SAMPLES_A_CYCLE = 24;

    /** A jump is tried so many times a cycle, and at sizes that differ from that of the crossings by so many cycles. */
    private static final int PLACES_A_CYCLE = 48;

    private static final double[] SIZES_OFF = {-0.03, -0.015, 0, 0.015, 0.03};

    /** A change of the speed is tried so many times a cycle; part of what it adds may lie behind the window. */
    private static final int KINKS_A_CYCLE = 12;

    private static final double[] SIZES = {0.9, 1, 1.1, 1.25, 1.5};
    private static final double[] RISES = {0.008, 0.02};
    private static final double[] RETURNS = {0.02, 0.03, 0.045, 0.07, 0.1, 0.15, 0.22};

    /** Slower returns than this, in cycles, show in the neighbours. */
    private static final double LONGEST_RETURN_CYCLES = 4;

    /** It is a slip if the jump leaves at most this share of what any change of the speed leaves, and of the whole. Our own figures. */
    private static final double BETTER = 0.4;

    private static final double EXPLAINS = 0.1;
    private static final double TURN = 2 * Math.PI;

    /** Multiples of the mains whose pick-up stands beside it, if it beats no slower than once in the window with the tacho. */
    private static final int MAINS_MULTIPLES = 3;

    /** Without any jump the speed may change a little from begin to end: phases that bend by so many cycles are tried. */
    private static final double[] BENDS = {-0.1, -0.05, -0.02, 0, 0.02, 0.05, 0.1};

    private final KeptWaveform waveform;
    private final double mainsHz;

    SlipJudge(KeptWaveform waveform, double mainsHz) {
        this.waveform = waveform;
        this.mainsHz = mainsHz;
    }

    boolean isSlip(SlipFinder.Odd odd) throws IOException {
        double usual = odd.usualSeconds();
        double from = odd.fromSeconds() - BESIDE * usual;
        double to = odd.toSeconds() + BESIDE * usual;
        long first = Math.max(0, waveform.firstNotBefore(from));
        int count = (int) (Math.min(waveform.samples(), waveform.firstNotBefore(to)) - first);
        int stride = (int) Math.max(1, Math.floor(usual * waveform.rateHz() / LEAST_SAMPLES_A_CYCLE));
        int kept = count / stride;
        if (kept < 4 * HARMONICS) {
            return false;
        }
        double[] all = new double[count];
        waveform.read(first, all, count);
        double[] volts = new double[kept];
        double[] time = new double[kept];
        double mean = 0;
        for (int i = 0; i < kept; i++) {
            volts[i] = all[i * stride];
            time[i] = waveform.timeSeconds(first + (long) i * stride) - odd.fromSeconds();
            mean += volts[i] / kept;
        }
        double whole = 0;
        for (double v : volts) {
            whole += (v - mean) * (v - mean);
        }
        Window window = new Window(volts, time, usual);
        double jump = leftByJump(window, odd);
        return jump < EXPLAINS * whole
                && jump < BETTER * leftByNothing(window, odd)
                && jump < BETTER * leftByKink(window, odd, jump);
    }

    /** What is left if nothing happened but that the cycles are a little longer or shorter, all of them or more and more. */
    private static double leftByNothing(Window window, SlipFinder.Odd odd) {
        double least = Double.POSITIVE_INFINITY;
        double length = window.time[window.time.length - 1] - window.time[0];
        double[] added = new double[window.time.length];
        for (double bend : BENDS) {
            for (double share : new double[] {0, 0.5, 1}) {
                for (int i = 0; i < added.length; i++) {
                    double u = (window.time[i] - window.time[0]) / length;
                    added[i] = -share * odd.cycles() * u + 4 * bend * u * (1 - u);
                }
                least = Math.min(least, window.left(added));
            }
        }
        return least;
    }

    private static double leftByJump(Window window, SlipFinder.Odd odd) {
        double[] time = window.time;
        double usual = odd.usualSeconds();
        double end = odd.toSeconds() - odd.fromSeconds();
        double least = Double.POSITIVE_INFINITY;
        double[] added = new double[time.length];
        for (double at = 0; at <= end; at += usual / PLACES_A_CYCLE) {
            for (double off : SIZES_OFF) {
                for (int i = 0; i < added.length; i++) {
                    added[i] = time[i] > at ? off - odd.cycles() : 0;
                }
                least = Math.min(least, window.left(added));
            }
        }
        return least;
    }

    /** @param enough no more is asked than whether less than that over {@link #BETTER} is left */
    private static double leftByKink(Window window, SlipFinder.Odd odd, double enough) {
        double[] time = window.time;
        double usual = odd.usualSeconds();
        double least = Double.POSITIVE_INFINITY;
        double[] added = new double[time.length];
        for (double back : RETURNS) {
            for (double rise : RISES) {
                double step = usual / KINKS_A_CYCLE;
                double end = odd.toSeconds() - odd.fromSeconds();
                for (double at = -usual; back < LONGEST_RETURN_CYCLES * usual && at <= end; at += step) {
                    for (double size : SIZES) {
                        double scale = -size * odd.cycles() / (0.5 * rise + back);
                        for (int i = 0; i < added.length; i++) {
                            added[i] = scale * Kink.bend(time[i] - at, rise, back);
                        }
                        least = Math.min(least, window.left(added));
                    }
                }
                if (least * BETTER <= enough) {
                    return least;
                }
            }
        }
        return least;
    }

    /** The waveform around the odd cycles. */
    private final class Window {
        private final double[] volts;
        private final double[] time;
        private final double usual;
        private final List<double[]> beside = new ArrayList<>();

        Window(double[] volts, double[] time, double usual) {
            this.volts = volts;
            this.time = time;
            this.usual = usual;
            double[] one = new double[volts.length];
            Arrays.fill(one, 1);
            beside.add(one);
            double length = time[time.length - 1] - time[0];
            for (int m = 1; m <= MAINS_MULTIPLES; m++) {
                double hz = m * mainsHz;
                double harmonic = Math.max(1, Math.min(HARMONICS, Math.rint(hz * usual)));
                if (Math.abs(hz - harmonic / usual) * length >= 1 && hz * length >= 1) {
                    double[] cosine = new double[volts.length];
                    double[] sine = new double[volts.length];
                    for (int i = 0; i < volts.length; i++) {
                        cosine[i] = Math.cos(TURN * hz * time[i]);
                        sine[i] = Math.sin(TURN * hz * time[i]);
                    }
                    beside.add(cosine);
                    beside.add(sine);
                }
            }
        }

        /** Energy that harmonics over a phase leave: even at one speed, with some cycles added. */
        double left(double[] added) {
            ColumnFit fit = new ColumnFit(volts);
            beside.forEach(fit::add);
            double[] cosine = new double[volts.length];
            double[] sine = new double[volts.length];
            for (int i = 0; i < volts.length; i++) {
                double phase = TURN * (time[i] / usual + added[i]);
                cosine[i] = Math.cos(phase);
                sine[i] = Math.sin(phase);
            }
            double[] c = cosine.clone();
            double[] s = sine.clone();
            for (int harmonic = 1; ; harmonic++) {
                fit.add(c.clone());
                fit.add(s.clone());
                if (harmonic == HARMONICS) {
                    return fit.energy();
                }
                for (int i = 0; i < c.length; i++) {
                    double next = c[i] * cosine[i] - s[i] * sine[i];
                    s[i] = s[i] * cosine[i] + c[i] * sine[i];
                    c[i] = next;
                }
            }
        }
    }
}
