package org.steadyshaft.speed;

import org.steadyshaft.signal.MainsHum;

/** Takes known mains pick-up out of the waveform, sample by sample. */
final class HumRemover {
    /** The amplitude is held over so many samples, and the sine goes on by rotation from an exact start. */
    private static final int STRIDE = 64;

    private final MainsHum hum;
    private final double sampleRateHz;

    HumRemover(MainsHum hum, double sampleRateHz) {
        this.hum = hum;
        this.sampleRateHz = sampleRateHz;
    }

    /** Subtracts the pick-up in place; {@code first} is the index of the first sample in the recording. */
    void remove(double[] samples, int count, long first) {
        for (MainsHum.Line line : hum.lines()) {
            double step = 2 * Math.PI * line.frequencyHz() / sampleRateHz;
            double turnRe = Math.cos(step);
            double turnIm = Math.sin(step);
            for (int from = 0; from < count; from += STRIDE) {
                int end = Math.min(count, from + STRIDE);
                double startSeconds = (first + from) / sampleRateHz;
                double middleSeconds = startSeconds + 0.5 * (end - from) / sampleRateHz;
                double a = hum.cosine(line, middleSeconds);
                double b = hum.sine(line, middleSeconds);
                if (a != 0 || b != 0) {
                    double cycles = line.frequencyHz() * startSeconds;
                    double angle = 2 * Math.PI * (cycles - Math.floor(cycles));
                    subtract(samples, from, end, a, b, Math.cos(angle), Math.sin(angle), turnRe, turnIm);
                }
            }
        }
    }

    private static void subtract(
            double[] samples,
            int from,
            int end,
            double a,
            double b,
            double startRe,
            double startIm,
            double turnRe,
            double turnIm) {
        double re = startRe;
        double im = startIm;
        for (int i = from; i < end; i++) {
            samples[i] -= a * re + b * im;
            double next = re * turnRe - im * turnIm;
            im = re * turnIm + im * turnRe;
            re = next;
        }
    }
}
