package org.steadyshaft.numeric;

/**
 * Cuts a stream of samples into frames that overlap. The stream is taken to be zero before its first and after its last
 * sample.
 */
public final class FrameCutter {
    /** Takes a frame. */
    @FunctionalInterface
    public interface Taker {
        /**
         * @param frame the samples; valid during the call only, must not be changed
         * @param index number of the frame, from 0
         */
        void frame(double[] frame, int index);
    }

    private final double[] frame;
    private final int hop;
    private final Taker taker;
    private int filled;
    private int index;

    /**
     * @param length samples in a frame
     * @param hop samples from one frame's start to the next one's; 1 to length
     * @param zerosBefore zeros put before the stream's first sample; less than length
     */
    public FrameCutter(int length, int hop, int zerosBefore, Taker taker) {
        this(length, hop, zerosBefore, 0, taker);
    }

    /** @param firstIndex number of the first frame, where the stream is fed from later on */
    public FrameCutter(int length, int hop, int zerosBefore, int firstIndex, Taker taker) {
        if (hop < 1 || hop > length || zerosBefore < 0 || zerosBefore >= length) {
            throw new IllegalArgumentException("frame " + length + ", hop " + hop + ", zeros before " + zerosBefore);
        }
        this.frame = new double[length];
        this.hop = hop;
        this.taker = taker;
        this.filled = zerosBefore;
        this.index = firstIndex;
    }

    /** Takes the next samples; hands out every frame that is now full. */
    public void add(double[] samples, int count) {
        int used = 0;
        while (used < count) {
            int part = Math.min(count - used, frame.length - filled);
            System.arraycopy(samples, used, frame, filled, part);
            used += part;
            filled += part;
            if (filled == frame.length) {
                handOut();
            }
        }
    }

    /** Pads with zeros until every sample has been in as many frames as those in the middle of the stream. */
    public void finishPadded() {
        double[] zeros = new double[hop];
        for (int done = 0; done <= frame.length; done += hop) {
            add(zeros, hop);
        }
    }

    private void handOut() {
        taker.frame(frame, index++);
        System.arraycopy(frame, hop, frame, 0, frame.length - hop);
        filled = frame.length - hop;
    }
}
