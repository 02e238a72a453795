package org.steadyshaft.speed;

import java.io.IOException;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.numeric.BandFilter;
import org.steadyshaft.numeric.InOrder;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Finds the crossings while the tacho lies in one range of frequencies: the filter's frames are as long as the lowest
 * frequency of the range needs and no longer, so that the speed hardly changes within one; outside the range it rests. The
 * waveform is worked on in sections side by side; each begins some frames early, so that filter and hysteresis are settled
 * where it counts, and where a section begins makes no difference.
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

    /** Samples of the waveform in a section, about; a section has so many frames at least. */
    private static final int SECTION_SAMPLES = 1 << 18;

    private static final int FEWEST_FRAMES = 64;

    /**
     * Half frames before a section from which on it is worked on: two until the filter hands out whole sums, four, or half of sixteen
     * periods times two, until the hysteresis has seen enough lobes.
     */
    private static final int LEAD = 6;

    private final KeptWaveform waveform;
    private final HumRemover humRemover;
    private final double fromHz;
    private final double toHz;
    private final double strong;
    private final DoubleUnaryOperator trackHz;
    private final int frame;
    private final double outputFactor;
    private final SineBlocks sine;

    /**
     * @param fromHz lowest frequency of the range
     * @param toHz upper end of the range, itself outside
     * @param sineHz frequency near which a sine is fitted
     * @param strong share of the local level that a half-wave must reach, see {@link LobeCrossings}
     * @param trackHz the tacho's frequency over time; 0 where nothing turns
     */
    CycleBand(
            KeptWaveform waveform,
            HumRemover humRemover,
            double fromHz,
            double toHz,
            double sineHz,
            double strong,
            DoubleUnaryOperator trackHz) {
        this.strong = strong;
        this.waveform = waveform;
        this.humRemover = humRemover;
        this.fromHz = fromHz;
        this.toHz = toHz;
        this.trackHz = trackHz;
        double rate = waveform.rateHz();
        double wantedSeconds = Math.min(FRAME_PERIODS / fromHz, 2 * waveform.durationSeconds());
        this.frame = Math.max(16, RealTransform.powerOfTwoFrom(wantedSeconds * rate));
        double factor = 4.0 / frame;
        while (rate * factor < SAMPLES_A_PERIOD * toHz) {
            factor *= 2;
        }
        this.outputFactor = factor;
        double edgeSeconds = EDGE_PERIODS / sineHz;
        this.sine = new SineBlocks(sineHz, rate * factor, edgeSeconds, waveform.durationSeconds() - edgeSeconds);
    }

    /**
     * Times of the crossings in the range, in order.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    DoubleSeries crossings() throws IOException {
        int half = frame / 2;
        int frames = Math.max(FEWEST_FRAMES, SECTION_SAMPLES / half);
        long all = waveform.samples() / half + 3;
        int sections = (int) ((all + frames - 1) / frames);
        List<Section> parts = InOrder.map(sections, index -> new Section(index, sections, frames).look());
        DoubleSeries.Builder seconds = new DoubleSeries.Builder();
        for (Section part : parts) {
            part.seconds.build().stream().forEach(seconds::add);
            sine.add(part.sums);
        }
        return seconds.build();
    }

    /** The sine fitted block by block to the filtered stream; to be asked for after the crossings. */
    SineBlocks sine() {
        return sine;
    }

    private double centreHz(double timeSeconds) {
        double frameSeconds = frame / waveform.rateHz();
        for (int look = 0; look <= LOOKS; look++) {
            double hz = trackHz.applyAsDouble(timeSeconds + frameSeconds * ((double) look / LOOKS - 0.5));
            if (hz >= fromHz && hz < toHz) {
                return trackHz.applyAsDouble(timeSeconds);
            }
        }
        return 0;
    }

    /** The crossings between two times, and the sums of the filtered samples between them. */
    private final class Section {
        private final boolean isLast;
        private final int firstFrame;
        private final long fromOutput;
        private final long toOutput;
        private final double fromSeconds;
        private final double toSeconds;
        private final BandFilter filter;
        private final LobeCrossings lobes;
        private final SineBlocks sums = sine.part();
        private final DoubleSeries.Builder seconds = new DoubleSeries.Builder();
        private final long samplesFrom;
        private final long samplesTo;

        Section(int index, int sections, int frames) {
            int half = frame / 2;
            this.isLast = index == sections - 1;
            long from = (long) index * frames;
            this.firstFrame = (int) Math.max(0, from - LEAD);
            this.samplesFrom = firstFrame == 0 ? 0 : (firstFrame - 1L) * half;
            this.samplesTo = isLast ? waveform.samples() : (from + frames + LEAD) * half;
            this.fromOutput = (long) (from * half * outputFactor);
            this.toOutput = isLast ? Long.MAX_VALUE : (long) ((from + frames) * half * outputFactor);
            this.filter = new BandFilter(
                    waveform.rateHz(),
                    frame,
                    outputFactor,
                    waveform.samples(),
                    firstFrame,
                    CycleBand.this::centreHz,
                    this::filtered);
            this.fromSeconds = index == 0 ? Double.NEGATIVE_INFINITY : fromOutput / filter.outputRateHz();
            this.toSeconds = isLast ? Double.POSITIVE_INFINITY : toOutput / filter.outputRateHz();
            this.lobes = new LobeCrossings(filter.outputRateHz(), strong, this::crossing);
        }

        Section look() throws IOException {
            waveform.stream(samplesFrom, samplesTo, (samples, count, first) -> {
                humRemover.remove(samples, count, first);
                filter.add(samples, count);
            });
            if (isLast) {
                filter.finish();
            }
            lobes.finish();
            return this;
        }

        /** What the first two frames of a later section hand out lacks the frames before. */
        private void filtered(double[] samples, int count, long first) {
            long settled = firstFrame == 0 ? Long.MIN_VALUE : (long) ((firstFrame + 1L) * frame / 2 * outputFactor);
            if (first >= settled) {
                lobes.scan(samples, count, first);
                int from = (int) Math.max(0, Math.min(count, fromOutput - first));
                int to = (int) Math.max(0, Math.min(count, toOutput - first));
                sums.add(samples, from, to, first);
            }
        }

        private void crossing(double timeSeconds) {
            double hz = trackHz.applyAsDouble(timeSeconds);
            if (hz >= fromHz && hz < toHz && timeSeconds >= fromSeconds && timeSeconds < toSeconds) {
                seconds.add(timeSeconds);
            }
        }
    }
}
