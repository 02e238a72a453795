package org.steadyshaft.analysis;

import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Waveform;

/**
 * A short piece of the raw waveform for the report.
 *
 * @param fromSeconds time of its first sample
 * @param sampleRateHz samples a second
 * @param values the samples
 */
public record WaveformExtract(double fromSeconds, double sampleRateHz, DoubleSeries values) {
    /** Copies a piece out of the stream. */
    static final class Taker implements Waveform.Listener {
        private final long from;
        private final long to;
        private final double sampleRateHz;
        private final DoubleSeries.Builder values = new DoubleSeries.Builder();

        Taker(Waveform waveform, double centreSeconds, double lengthSeconds) {
            this.sampleRateHz = waveform.sampleRateHz();
            long wanted = Math.max(16, Math.round(lengthSeconds * sampleRateHz));
            long start = Math.round(centreSeconds * sampleRateHz) - wanted / 2;
            this.from = Math.max(0, Math.min(waveform.samples() - wanted, start));
            this.to = from + wanted;
        }

        @Override
        public void block(double[] samples, int count, long first) {
            for (long i = Math.max(from, first); i < Math.min(to, first + count); i++) {
                values.add(samples[(int) (i - first)]);
            }
        }

        WaveformExtract extract() {
            return new WaveformExtract(from / sampleRateHz, sampleRateHz, values.build());
        }
    }
}
