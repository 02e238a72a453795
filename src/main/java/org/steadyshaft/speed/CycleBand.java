package org.steadyshaft.speed;

import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.numeric.BandFilter;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Waveform;

/**
 * Finds the crossings while the tacho lies in one range of frequencies: the filter's frames are as long as the lowest
 * frequency of the range needs and no longer, so that the speed hardly changes within one; outside the range it rests.
 */
final class CycleBand {
    /** The filter's frame spans this many periods at least, so that its echo fits between the frame's zeros. */
    private static final double FRAME_PERIODS = 16;

    /** Samples a period after filtering at least: the cubic between them is then exact to a millionth of a period. */
    private static final double SAMPLES_A_PERIOD = 20;

    /** Beside the ends of the recording the filter still feels the edge; the sine is fitted inside. */
    private static final double EDGE_PERIODS = 5;

    /** The track is looked at in so many places of a frame to tell whether the range is touched. */
    private static final int LOOKS = 8;

    private final double fromHz;
    private final double toHz;
    private final double frameSeconds;
    private final DoubleUnaryOperator trackHz;
    private final BandFilter filter;
    private final LobeCrossings crossings;
    private final SineBlocks sine;
    private final DoubleSeries.Builder seconds = new DoubleSeries.Builder();

    /**
     * @param fromHz lowest frequency of the range
     * @param toHz upper end of the range, itself outside
     * @param sineHz frequency near which a sine is fitted
     * @param trackHz the tacho's frequency over time; 0 where nothing turns
     */
    CycleBand(Waveform waveform, double fromHz, double toHz, double sineHz, DoubleUnaryOperator trackHz) {
        this.fromHz = fromHz;
        this.toHz = toHz;
        this.trackHz = trackHz;
        double rate = waveform.sampleRateHz();
        double wantedSeconds = Math.min(FRAME_PERIODS / fromHz, 2 * waveform.durationSeconds());
        int frame = Math.max(16, RealTransform.powerOfTwoFrom(wantedSeconds * rate));
        double factor = 4.0 / frame;
        while (rate * factor < SAMPLES_A_PERIOD * toHz) {
            factor *= 2;
        }
        this.frameSeconds = frame / rate;
        this.filter = new BandFilter(rate, frame, factor, waveform.samples(), this::centreHz, this::filtered);
        double edgeSeconds = EDGE_PERIODS / sineHz;
        this.sine =
                new SineBlocks(sineHz, filter.outputRateHz(), edgeSeconds, waveform.durationSeconds() - edgeSeconds);
        this.crossings = new LobeCrossings(filter.outputRateHz(), this::crossing);
    }

    void add(double[] samples, int count) {
        filter.add(samples, count);
    }

    /** Times of the crossings in the range, in order; to be called once, after the last sample. */
    DoubleSeries finish() {
        filter.finish();
        crossings.finish();
        return seconds.build();
    }

    /** The sine fitted block by block to the filtered stream. */
    SineBlocks sine() {
        return sine;
    }

    private void filtered(double[] samples, int count, long first) {
        crossings.scan(samples, count, first);
        sine.add(samples, count, first);
    }

    private double centreHz(double timeSeconds) {
        for (int look = 0; look <= LOOKS; look++) {
            double hz = trackHz.applyAsDouble(timeSeconds + frameSeconds * ((double) look / LOOKS - 0.5));
            if (hz >= fromHz && hz < toHz) {
                return trackHz.applyAsDouble(timeSeconds);
            }
        }
        return 0;
    }

    private void crossing(double timeSeconds) {
        double hz = trackHz.applyAsDouble(timeSeconds);
        if (hz >= fromHz && hz < toHz) {
            seconds.add(timeSeconds);
        }
    }
}
