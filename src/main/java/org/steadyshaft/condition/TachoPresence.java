package org.steadyshaft.condition;

import java.io.IOException;
import org.steadyshaft.numeric.NormalFit;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;

/**
 * Whether the tacho's voltage is there in a stretch in which no cycle was counted: a lead that is open leaves the mains' pick-up and noise,
 * a speed that the counting lost leaves the tacho.
 */
public final class TachoPresence {
    /** It is there from this share of its level beside the stretch on. */
    private static final double THERE = 0.4;

    /** In a moment too short to tell the mains a loose contact that still lets this through is no open lead (our own figure). */
    private static final double THERE_IN_A_MOMENT = 0.12;

    private static final double BESIDE_SECONDS = 0.3;
    private static final double MOST_SECONDS = 1;

    /** Its begin and end may still hold the last cycles. */
    private static final double INNER_FROM = 0.15;

    private static final int MULTIPLES = 3;
    private static final double LEAST_FOR_MAINS_SECONDS = 0.15;

    private final KeptWaveform waveform;
    private final double mainsHz;

    /** @param mainsHz nominal frequency of the mains */
    public TachoPresence(KeptWaveform waveform, double mainsHz) {
        this.waveform = waveform;
        this.mainsHz = mainsHz;
    }

    /**
     * Whether the tacho is there inside a stretch, by its level just before.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public boolean isIn(Stretch stretch) throws IOException {
        double length = Math.min(MOST_SECONDS, stretch.durationSeconds() * (1 - 2 * INNER_FROM));
        double from = stretch.fromSeconds() + INNER_FROM * stretch.durationSeconds();
        double there = length < LEAST_FOR_MAINS_SECONDS ? THERE_IN_A_MOMENT : THERE;
        return rms(from, length) > there * rms(stretch.fromSeconds() - BESIDE_SECONDS, BESIDE_SECONDS);
    }

    /** Root mean square of what a constant and the mains leave. */
    private double rms(double fromSeconds, double seconds) throws IOException {
        long first = waveform.firstNotBefore(Math.max(0, fromSeconds));
        int count = (int) Math.min(waveform.samples() - first, Math.round(seconds * waveform.rateHz()));
        if (count < 8 * MULTIPLES) {
            return 0;
        }
        double[] volts = new double[count];
        waveform.read(first, volts, count);
        // in so short a time the mains and its multiples together take any tone
        int multiples = seconds < LEAST_FOR_MAINS_SECONDS ? 0 : MULTIPLES;
        NormalFit fit = new NormalFit(1 + 2 * multiples);
        double[] row = new double[1 + 2 * multiples];
        for (int i = 0; i < count; i++) {
            columns(i, row);
            fit.add(row, volts[i]);
        }
        double[] c = fit.solve();
        double sum = 0;
        for (int i = 0; i < count; i++) {
            columns(i, row);
            double rest = volts[i];
            for (int j = 0; j < c.length; j++) {
                rest -= c[j] * row[j];
            }
            sum += rest * rest;
        }
        return Math.sqrt(sum / count);
    }

    private void columns(int sample, double[] row) {
        row[0] = 1;
        for (int m = 1; 2 * m < row.length; m++) {
            double phase = 2 * Math.PI * m * mainsHz * sample / waveform.rateHz();
            row[2 * m - 1] = Math.cos(phase);
            row[2 * m] = Math.sin(phase);
        }
    }
}
