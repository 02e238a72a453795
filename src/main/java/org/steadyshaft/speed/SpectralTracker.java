package org.steadyshaft.speed;

import java.io.IOException;
import java.util.List;
import org.steadyshaft.numeric.FrameCutter;
import org.steadyshaft.numeric.InOrder;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Follows the tacho frequency by short-time spectra: Hann window, frames overlapping by half, straightened where the speed changes within one
 * ({@link SweptSpectrum}), lines located by {@link org.steadyshaft.numeric.HannPeak}, the fundamental chosen in each frame by its family of harmonics ({@link
 * LineFamilies}) and over all frames by the smoothest likely path ({@link TrackPath}); what changes too fast for a frame is looked at in a
 * shorter one ({@link FastChange}). Sections of frames are worked on side by
 * side. Memory grows with the number of frames, not of samples.
 */
public final class SpectralTracker {
    /** The spectrum cannot hold fewer samples than this and still show a line. */
    private static final int SHORTEST_FRAME_SAMPLES = 256;

    /** A recording is cut into this many frames at least, if it is long enough for frames at all. */
    private static final int FEWEST_FRAMES = 4;

    /** Frames worked on in one go. */
    private static final int SECTION_FRAMES = 256;

    private final KeptWaveform waveform;
    private final double mainsHz;
    private final int lowestBin;
    private final int frameSamples;
    private final int bins;
    private final Window window;

    /**
     * @param waveform a short one is cut into shorter frames
     * @param aboutFrameSeconds wanted length of a frame; the next power of two in samples is taken
     * @param lowestBin no line below this bin is taken for the fundamental
     * @param mainsHz 50 or 60: a line there is the tacho only if nothing else can be
     */
    public SpectralTracker(KeptWaveform waveform, double aboutFrameSeconds, double mainsHz, int lowestBin) {
        this.waveform = waveform;
        this.mainsHz = mainsHz;
        this.lowestBin = lowestBin;
        this.frameSamples = frameSamples(waveform.rateHz(), waveform.samples(), aboutFrameSeconds);
        this.bins = (int) Math.min(frameSamples / 2 + 1, waveform.cleanHz() / waveform.rateHz() * frameSamples + 1);
        this.window = Window.of(CosineWindow.HANN, frameSamples);
    }

    private static int frameSamples(double sampleRateHz, long samples, double aboutFrameSeconds) {
        int frame = RealTransform.powerOfTwoFrom(
                Math.max(SHORTEST_FRAME_SAMPLES, Math.min(1 << 22, sampleRateHz * aboutFrameSeconds)));
        while (frame > SHORTEST_FRAME_SAMPLES && frame * (FEWEST_FRAMES + 1L) / 2 > samples) {
            frame /= 2;
        }
        return frame;
    }

    public int frameSamples() {
        return frameSamples;
    }

    /**
     * The track. A recording shorter than a frame gives no frames.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public FundamentalTrack track() throws IOException {
        int hop = frameSamples / 2;
        long frames = waveform.samples() < frameSamples ? 0 : (waveform.samples() - frameSamples) / hop + 1;
        int sections = (int) ((frames + SECTION_FRAMES - 1) / SECTION_FRAMES);
        List<Section> parts = InOrder.map(sections, index -> {
            long from = (long) index * SECTION_FRAMES;
            long end = Math.min(frames, from + SECTION_FRAMES);
            return new Section().look(from * hop, (end - 1) * hop + frameSamples);
        });
        TrackPath path = new TrackPath();
        DoubleSeries.Builder noise = new DoubleSeries.Builder();
        for (Section part : parts) {
            path.add(part.path);
            part.noise.build().stream().forEach(noise::add);
        }
        double seconds = frameSamples / waveform.rateHz();
        FundamentalTrack track = path.best(0.5 * seconds, 0.5 * seconds, seconds, 2 / window.sum(), noise.build());
        return new FastChange(waveform, frameSamples, mainsHz, lowestBin).filled(track);
    }

    /** Some frames in a row. */
    private final class Section {
        private final RealTransform transform = new RealTransform(frameSamples);
        private final double[] work = new double[frameSamples];
        private final double[] power = new double[bins];
        private final SweptSpectrum swept = new SweptSpectrum(window, transform, bins);
        private final LineFamilies families = new LineFamilies(waveform.rateHz() / frameSamples, mainsHz, lowestBin);
        private final TrackPath path = new TrackPath();
        private final DoubleSeries.Builder noise = new DoubleSeries.Builder();

        /** Noise is told for the rate of the recording, as if it were white: what a lower rate took away is counted in. */
        private final double noiseScale = Math.sqrt(waveform.recordedRateHz() / waveform.rateHz());

        Section look(long from, long to) throws IOException {
            FrameCutter cutter = new FrameCutter(frameSamples, frameSamples / 2, 0, this::frame);
            waveform.stream(from, to, (samples, count, first) -> cutter.add(samples, count));
            return this;
        }

        private void frame(double[] frame, int index) {
            window.applyCentred(frame, work);
            transform.forward(work);
            transform.power(work, power);
            double noisePower = families.noisePower(power);
            double sweep = swept.sharpen(frame, power, noisePower);
            if (sweep != 0) {
                noisePower = families.noisePower(power);
            }
            families.find(power, path);
            noise.add(noiseScale * Math.sqrt(noisePower / window.sumOfSquares()));
            path.endFrame(sweep);
        }
    }
}
