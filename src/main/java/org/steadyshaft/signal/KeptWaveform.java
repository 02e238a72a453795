package org.steadyshaft.signal;

import java.io.IOException;
import java.util.Arrays;
import java.util.Objects;

/**
 * The tacho's voltage at a rate that suits its frequency: made once, without delay, from the samples of one channel, and read by every
 * later stage in place of the recording. Sample k stands at the time k / {@link #rateHz()} after the first sample of the recording, in
 * the recording's own unit. Pieces are fixed by position; where all of them together would be too large they are made again when asked
 * for, which is why reading can fail.
 */
public final class KeptWaveform {
    /** Samples in a piece; the last one is shorter. */
    public static final int PIECE_SAMPLES = 1 << 16;

    private static final int BLOCK_SAMPLES = 1 << 13;

    /** Hands out pieces. */
    @FunctionalInterface
    public interface Pieces {
        /**
         * @param index from 0
         * @return the samples from {@code index * PIECE_SAMPLES} on; not to be changed
         * @throws IOException if the recording has to be read for it and cannot be
         */
        float[] piece(int index) throws IOException;
    }

    private final double rateHz;
    private final double recordedRateHz;
    private final long samples;
    private final double cleanHz;
    private final double durationSeconds;
    private final Pieces pieces;

    /**
     * @param rateHz samples a second; above 0
     * @param recordedRateHz samples a second of the recording; not below {@code rateHz}
     * @param samples how many there are; at least 1
     * @param cleanHz up to this frequency the waveform is that of the recording: pass-band within 1e-6, aliases below -100 dB
     * @param durationSeconds length of the recording
     */
    public KeptWaveform(
            double rateHz, double recordedRateHz, long samples, double cleanHz, double durationSeconds, Pieces pieces) {
        if (!(rateHz > 0) || !(recordedRateHz >= rateHz) || samples < 1 || !(cleanHz > 0) || !(durationSeconds > 0)) {
            throw new IllegalArgumentException("waveform of " + samples + " samples at " + rateHz + " Hz, clean to "
                    + cleanHz + " Hz, of a recording of " + durationSeconds + " s");
        }
        this.rateHz = rateHz;
        this.recordedRateHz = recordedRateHz;
        this.samples = samples;
        this.cleanHz = cleanHz;
        this.durationSeconds = durationSeconds;
        this.pieces = Objects.requireNonNull(pieces, "pieces");
    }

    /** A waveform that is held as a whole. */
    public static KeptWaveform of(float[] values, double rateHz) {
        return new KeptWaveform(rateHz, rateHz, values.length, 0.5 * rateHz, values.length / rateHz, index -> {
            int from = index * PIECE_SAMPLES;
            return Arrays.copyOfRange(values, from, Math.min(values.length, from + PIECE_SAMPLES));
        });
    }

    public double rateHz() {
        return rateHz;
    }

    /** Samples a second of the recording it was made from. */
    public double recordedRateHz() {
        return recordedRateHz;
    }

    public long samples() {
        return samples;
    }

    /** Up to here it is the recording's waveform; above, it is weakened or mixed with aliases. */
    public double cleanHz() {
        return cleanHz;
    }

    /** Length of the recording [s]. */
    public double durationSeconds() {
        return durationSeconds;
    }

    public double timeSeconds(long sample) {
        return sample / rateHz;
    }

    /** Index of the first sample that is not before a time; may lie outside the recording. */
    public long firstNotBefore(double timeSeconds) {
        return (long) Math.ceil(timeSeconds * rateHz - 1e-9);
    }

    /** Takes samples block by block. */
    @FunctionalInterface
    public interface Listener {
        /**
         * @param samples the block; may be changed and is reused after the call
         * @param count how many entries of it are valid
         * @param first index of the first one
         */
        void block(double[] samples, int count, long first);
    }

    /**
     * Hands out a range block by block; zeros stand for what lies before the first and after the last sample.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public void stream(long from, long to, Listener listener) throws IOException {
        double[] block = new double[(int) Math.max(1, Math.min(BLOCK_SAMPLES, to - from))];
        for (long at = from; at < to; at += block.length) {
            int count = (int) Math.min(block.length, to - at);
            read(at, block, count);
            listener.block(block, count, at);
        }
    }

    /**
     * Copies samples; before the first and after the last there are zeros.
     *
     * @param first index of the first one; may be negative
     * @param out filled from index 0
     * @throws IOException if the recording has to be read again and cannot be
     */
    public void read(long first, double[] out, int count) throws IOException {
        int done = 0;
        while (done < count) {
            long at = first + done;
            if (at < 0 || at >= samples) {
                int zeros = at < 0 ? (int) Math.min(count - done, -at) : count - done;
                Arrays.fill(out, done, done + zeros, 0);
                done += zeros;
                continue;
            }
            float[] piece = pieces.piece((int) (at / PIECE_SAMPLES));
            int from = (int) (at % PIECE_SAMPLES);
            int part = Math.min(count - done, piece.length - from);
            for (int i = 0; i < part; i++) {
                out[done + i] = piece[from + i];
            }
            done += part;
        }
    }
}
