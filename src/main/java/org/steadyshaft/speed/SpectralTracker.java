package org.steadyshaft.speed;

import org.steadyshaft.numeric.FrameCutter;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.Waveform;

/**
 * Follows the tacho frequency by short-time spectra: Hann window, frames overlapping by half, straightened where the speed changes within one
 * ({@link SweptSpectrum}), lines located by {@link org.steadyshaft.numeric.HannPeak}, the fundamental chosen in each frame by its family of harmonics ({@link
 * LineFamilies}) and over all frames by the smoothest likely path ({@link TrackPath}). Memory grows with the number of
 * frames, not of samples.
 */
public final class SpectralTracker implements Waveform.Listener {
    /** The spectrum cannot hold fewer samples than this and still show a line. */
    private static final int SHORTEST_FRAME_SAMPLES = 256;

    /** A recording is cut into this many frames at least, if it is long enough for frames at all. */
    private static final int FEWEST_FRAMES = 4;

    private final double sampleRateHz;
    private final int frameSamples;
    private final Window window;
    private final RealTransform transform;
    private final double[] work;
    private final double[] power;
    private final SweptSpectrum swept;
    private final LineFamilies families;
    private final TrackPath path = new TrackPath();
    private final DoubleSeries.Builder noise = new DoubleSeries.Builder();
    private final FrameCutter cutter;

    /**
     * @param samples length of the recording; a short one is cut into shorter frames
     * @param aboutFrameSeconds wanted length of a frame; the next power of two in samples is taken
     * @param lowestBin no line below this bin is taken for the fundamental
     * @param mainsHz 50 or 60: a line there is the tacho only if nothing else can be
     */
    public SpectralTracker(double sampleRateHz, long samples, double aboutFrameSeconds, double mainsHz, int lowestBin) {
        this.sampleRateHz = sampleRateHz;
        this.frameSamples = frameSamples(sampleRateHz, samples, aboutFrameSeconds);
        this.window = Window.of(CosineWindow.HANN, frameSamples);
        this.transform = new RealTransform(frameSamples);
        this.work = new double[frameSamples];
        this.power = new double[frameSamples / 2 + 1];
        this.swept = new SweptSpectrum(window, transform);
        this.families = new LineFamilies(sampleRateHz / frameSamples, mainsHz, lowestBin);
        this.cutter = new FrameCutter(frameSamples, frameSamples / 2, 0, this::frame);
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

    @Override
    public void block(double[] samples, int count, long first) {
        cutter.add(samples, count);
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
        noise.add(Math.sqrt(noisePower / window.sumOfSquares()));
        path.endFrame(sweep);
    }

    /** The track; to be called once, after the last block. A recording shorter than a frame gives no frames. */
    public FundamentalTrack track() {
        double toAmplitude = 2 / window.sum();
        return path.best(
                0.5 * frameSamples / sampleRateHz,
                0.5 * frameSamples / sampleRateHz,
                frameSamples / sampleRateHz,
                toAmplitude,
                noise.build());
    }
}
