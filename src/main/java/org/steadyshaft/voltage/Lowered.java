package org.steadyshaft.voltage;

import java.io.IOException;
import org.steadyshaft.signal.KeptWaveform;

/**
 * A stretch of the waveform behind a low-pass without delay that keeps some harmonics of the tacho, at a rate that suits: what lies above
 * them is noise to every fit.
 */
final class Lowered {
    /** The low-pass closes at this multiple of the tacho's frequency, by a windowed sinc of one and a half periods. */
    private static final double CLOSED_FROM = 6;

    private static final double HALF_PERIODS = 0.75;
    private static final double LEAST_SAMPLES_A_PERIOD = 26;

    private final double firstSeconds;
    private final double stepSeconds;
    private final double[] values;

    private Lowered(double firstSeconds, double stepSeconds, double[] values) {
        this.firstSeconds = firstSeconds;
        this.stepSeconds = stepSeconds;
        this.values = values;
    }

    /** @param cycleHz highest frequency of the tacho there */
    static Lowered of(KeptWaveform waveform, long first, int samples, double cycleHz) throws IOException {
        double rate = waveform.rateHz();
        double step = 1 / rate;
        int factor = (int) Math.max(1, Math.floor(rate / (LEAST_SAMPLES_A_PERIOD * cycleHz)));
        int half = (int) Math.ceil(HALF_PERIODS * rate / cycleHz);
        double cut = CLOSED_FROM * cycleHz * step;
        if (cut > 0.45 || half < 2) {
            double[] same = new double[samples];
            waveform.read(first, same, samples);
            return new Lowered(waveform.timeSeconds(first), step, same);
        }
        double[] taps = taps(half, cut);
        double[] raw = new double[samples + 2 * half];
        waveform.read(first - half, raw, raw.length);
        double[] out = new double[(samples + factor - 1) / factor];
        for (int k = 0; k < out.length; k++) {
            out[k] = at(raw, k * factor, taps);
        }
        return new Lowered(waveform.timeSeconds(first), factor * step, out);
    }

    private static double[] taps(int half, double cut) {
        double[] taps = new double[2 * half + 1];
        double sum = 0;
        for (int i = -half; i <= half; i++) {
            double x = 2 * cut * i;
            double sinc = i == 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
            taps[i + half] = sinc * (0.54 + 0.46 * Math.cos(Math.PI * i / half));
            sum += taps[i + half];
        }
        for (int i = 0; i < taps.length; i++) {
            taps[i] /= sum;
        }
        return taps;
    }

    /** One value; the taps are the same from either end, so two samples share a product. */
    private static double at(double[] raw, int from, double[] taps) {
        int half = taps.length / 2;
        int end = from + taps.length - 1;
        double sum = taps[half] * raw[from + half];
        for (int i = 0; i < half; i++) {
            sum += taps[i] * (raw[from + i] + raw[end - i]);
        }
        return sum;
    }

    double firstSeconds() {
        return firstSeconds;
    }

    double stepSeconds() {
        return stepSeconds;
    }

    double[] values() {
        return values;
    }
}
