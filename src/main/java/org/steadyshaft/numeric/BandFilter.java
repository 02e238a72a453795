package org.steadyshaft.numeric;

import java.util.Arrays;
import org.steadyshaft.published.CosineWindow;

/**
 * A band-pass without delay whose band may move along the stream, and which hands out its result at another sample rate.
 *
 * <p>The stream is cut into Hann-weighted frames that overlap by half and add up to the stream again. Each frame, between
 * zeros of half its length on both sides, is multiplied in the frequency domain by a real response (so: zero phase) and
 * brought back by a transform of another length, which changes the rate; the pieces are added. Where the band stands
 * still this is one fixed linear filter; where it moves, it fades from frame to frame. The response falls over the edges
 * like a raised cosine, so that its echo dies within a few periods. Cost: one forward transform of twice the frame each
 * half frame, and the same back at the new rate.
 */
public final class BandFilter {
    /** The band of one frame. */
    @FunctionalInterface
    public interface Bands {
        /** The centre frequency [Hz] for the frame around a time [s] after the first sample; 0 for silence. */
        double centreHz(double timeSeconds);
    }

    /** Takes filtered samples. */
    @FunctionalInterface
    public interface Taker {
        /** @param first index of {@code samples[0]} in the filtered stream; its time is first / outputRateHz() */
        void filtered(double[] samples, int count, long first);
    }

    /** Edges of the band as shares of its centre: closed below the first, open from the second to the third, closed from the fourth. */
    private static final double CLOSED_BELOW = 0.05;

    private static final double OPEN_FROM = 0.45;
    private static final double OPEN_TO = 1.5;
    private static final double CLOSED_FROM = 1.95;

    private final double sampleRateHz;
    private final int frame;
    private final int outputPiece;
    private final Window window;
    private final RealTransform forward;
    private final RealTransform inverse;
    private final double[] work;
    private final double[] piece;
    private final double[] sum;
    private final Bands bands;
    private final Taker taker;
    private final FrameCutter cutter;
    private final long outputSamples;

    /**
     * @param frame frame length in samples, a power of two; should span 16 periods of the lowest centre or more
     * @param outputRateFactor output rate over input rate, a power of two (also below 1); 4 * frame times it is at least 16
     * @param samples length of the stream
     */
    public BandFilter(double sampleRateHz, int frame, double outputRateFactor, long samples, Bands bands, Taker taker) {
        this(sampleRateHz, frame, outputRateFactor, samples, 0, bands, taker);
    }

    /**
     * A filter for a part of a stream: what it hands out from the second frame on is what it would hand out if it had been fed from the
     * start.
     *
     * @param firstFrame the frame to begin with: from 1 on, the first sample to be fed is that at {@code (firstFrame - 1) * frame / 2}
     */
    public BandFilter(
            double sampleRateHz,
            int frame,
            double outputRateFactor,
            long samples,
            int firstFrame,
            Bands bands,
            Taker taker) {
        this.sampleRateHz = sampleRateHz;
        this.frame = frame;
        this.outputPiece = (int) Math.round(2 * frame * outputRateFactor);
        this.window = Window.of(CosineWindow.HANN, frame);
        this.forward = new RealTransform(2 * frame);
        this.inverse = new RealTransform(outputPiece);
        this.work = new double[2 * frame];
        this.piece = new double[outputPiece];
        this.sum = new double[outputPiece];
        this.bands = bands;
        this.taker = taker;
        this.cutter = new FrameCutter(frame, frame / 2, firstFrame == 0 ? frame / 2 : 0, firstFrame, this::filterFrame);
        this.outputSamples = (long) Math.ceil(samples * outputRateFactor);
    }

    public double outputRateHz() {
        return sampleRateHz * outputPiece / (2.0 * frame);
    }

    public void add(double[] samples, int count) {
        cutter.add(samples, count);
    }

    /** Hands out what is left; to be called once, after the last sample. */
    public void finish() {
        cutter.finishPadded();
    }

    /** Frame k holds the samples from (k - 1) frame / 2; its piece begins half a frame before that. */
    private void filterFrame(double[] samples, int index) {
        double centreSeconds = index * (frame / 2.0) / sampleRateHz;
        double centreHz = bands.centreHz(centreSeconds);
        if (centreHz > 0) {
            Arrays.fill(work, 0);
            for (int i = 0; i < frame; i++) {
                work[frame / 2 + i] = samples[i] * window.weight(i);
            }
            forward.forward(work);
            shape(centreHz);
            inverse.inverse(piece);
            double scale = (double) outputPiece / (2 * frame);
            for (int i = 0; i < outputPiece; i++) {
                sum[i] += scale * piece[i];
            }
        }
        handOut(index);
    }

    /** Copies the bins of the band, weighted, into the shorter or longer spectrum of the piece. */
    private void shape(double centreHz) {
        Arrays.fill(piece, 0);
        double binHz = sampleRateHz / (2.0 * frame);
        int from = Math.max(1, (int) Math.ceil(CLOSED_BELOW * centreHz / binHz));
        int to = Math.min(Math.min(frame, outputPiece / 2) - 1, (int) Math.floor(CLOSED_FROM * centreHz / binHz));
        for (int k = from; k <= to; k++) {
            double gain = gain(k * binHz / centreHz);
            piece[2 * k] = gain * work[2 * k];
            piece[2 * k + 1] = gain * work[2 * k + 1];
        }
    }

    /** Response at a frequency given as a share of the centre, 0 to 1. */
    public static double gain(double share) {
        if (share <= CLOSED_BELOW || share >= CLOSED_FROM) {
            return 0;
        }
        if (share < OPEN_FROM) {
            return 0.5 - 0.5 * Math.cos(Math.PI * (share - CLOSED_BELOW) / (OPEN_FROM - CLOSED_BELOW));
        }
        if (share > OPEN_TO) {
            return 0.5 + 0.5 * Math.cos(Math.PI * (share - OPEN_TO) / (CLOSED_FROM - OPEN_TO));
        }
        return 1;
    }

    /** The first quarter of the sum gets no more pieces: it is handed out, and the rest moves up. */
    private void handOut(int index) {
        int quarter = outputPiece / 4;
        long first = (long) index * quarter - outputPiece / 2;
        int skip = (int) Math.max(0, Math.min(quarter, -first));
        int count = (int) Math.max(0, Math.min(quarter, outputSamples - first)) - skip;
        if (count > 0) {
            double[] out = Arrays.copyOfRange(sum, skip, skip + count);
            taker.filtered(out, count, first + skip);
        }
        System.arraycopy(sum, quarter, sum, 0, outputPiece - quarter);
        Arrays.fill(sum, outputPiece - quarter, outputPiece, 0);
    }
}
