package org.steadyshaft.blip;

import java.io.IOException;
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

    private final KeptWaveform waveform;

    SlipJudge(KeptWaveform waveform) {
        this.waveform = waveform;
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
        double jump = leftByJump(volts, time, odd);
        return jump < EXPLAINS * whole && jump < BETTER * leftByKink(volts, time, odd, jump);
    }

    private static double leftByJump(double[] volts, double[] time, SlipFinder.Odd odd) {
        double usual = odd.usualSeconds();
        double end = odd.toSeconds() - odd.fromSeconds();
        double least = Double.POSITIVE_INFINITY;
        double[] added = new double[volts.length];
        for (double at = 0; at <= end; at += usual / PLACES_A_CYCLE) {
            for (double off : SIZES_OFF) {
                for (int i = 0; i < added.length; i++) {
                    added[i] = time[i] > at ? off - odd.cycles() : 0;
                }
                least = Math.min(least, left(volts, time, usual, added));
            }
        }
        return least;
    }

    /** @param enough no more is asked than whether less than that over {@link #BETTER} is left */
    private static double leftByKink(double[] volts, double[] time, SlipFinder.Odd odd, double enough) {
        double usual = odd.usualSeconds();
        double least = Double.POSITIVE_INFINITY;
        double[] added = new double[volts.length];
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
                        least = Math.min(least, left(volts, time, usual, added));
                    }
                }
                if (least * BETTER <= enough) {
                    return least;
                }
            }
        }
        return least;
    }

    /** Energy that harmonics over a phase leave: even at one speed, with some cycles added. */
    private static double left(double[] volts, double[] time, double usual, double[] added) {
        ColumnFit fit = new ColumnFit(volts);
        double[] one = new double[volts.length];
        java.util.Arrays.fill(one, 1);
        fit.add(one);
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
