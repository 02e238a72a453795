package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.Arrays;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;

/**
 * Cuts pieces out of the waveform: from the recording itself where it opens at any sample, so that needles and clipping show, else from
 * the waveform that was kept.
 */
final class Extractor {
    private static final int FEWEST_SAMPLES = 16;

    private final SampleSource source;
    private final int channel;
    private final KeptWaveform kept;

    Extractor(SampleSource source, FirstPass first) {
        this(source, first.channel(), first.waveform());
    }

    Extractor(SampleSource source, int channel, KeptWaveform kept) {
        this.source = source;
        this.channel = channel;
        this.kept = kept;
    }

    /** The piece about a time, moved inwards where it would pass an end. */
    WaveformExtract extract(double centreSeconds, double lengthSeconds) throws IOException {
        boolean direct = source.opensAnywhere();
        double rateHz = direct ? source.sampleRateHz() : kept.rateHz();
        long samples = direct ? source.samples() : Math.min(kept.samples(), source.samples());
        long wanted = Math.max(FEWEST_SAMPLES, Math.round(lengthSeconds * rateHz));
        long start = Math.round(centreSeconds * rateHz) - wanted / 2;
        long from = Math.max(0, Math.min(samples - wanted, start));
        int count = (int) Math.min(wanted, samples - from);
        double[] values = new double[count];
        if (direct) {
            try (SampleRange range = new SampleRange(source, from)) {
                values = range.next(count)[channel];
            }
        } else {
            kept.read(from, values, count);
        }
        return new WaveformExtract(from / rateHz, rateHz, DoubleSeries.of(Arrays.copyOf(values, count)));
    }
}
