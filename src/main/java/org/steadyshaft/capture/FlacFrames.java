package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Decodes the frames of a FLAC file one after another; every one must be whole and follow on from that before. */
final class FlacFrames implements Closeable {
    private static final long ID3_V1 = 0x544147;
    private static final long APE = 0x415045544147L;

    private final FlacBits in;
    private final FlacHeader header;
    private final FlacSubframe subframe;
    private final long[][] decoded;
    private final Place start;
    private boolean numbersSamples;
    private FlacFrameHeader first;
    private FlacFrameHeader current;
    private long frames;
    private long samples;

    /**
     * Where a frame begins.
     *
     * @param byteAt in the file
     * @param frame its number, from 0
     * @param sample its first sample, from 0
     * @param numbersSamples whether frames of a fixed size bear the number of their first sample
     */
    record Place(long byteAt, long frame, long sample, boolean numbersSamples) {}

    /** Goes on where the header ended. */
    FlacFrames(FlacBits in, FlacHeader header) {
        this(in, header, new Place(header.firstFrameAt(), 0, 0, false));
    }

    private FlacFrames(FlacBits in, FlacHeader header, Place start) {
        this.in = in;
        this.header = header;
        this.start = start;
        this.frames = start.frame();
        this.samples = start.sample();
        this.numbersSamples = start.numbersSamples();
        this.subframe = new FlacSubframe(in);
        this.decoded = new long[header.channels()][0];
    }

    /** Opens a file anew at one of its frames. */
    static FlacFrames open(Path file, String name, FlacHeader header, Place start) throws IOException {
        FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
        FlacBits in = new FlacBits(channel, name);
        in.moveTo(start.byteAt());
        return new FlacFrames(in, header, start);
    }

    /**
     * Decodes the next frame.
     *
     * @return false at the end of the file
     * @throws EOFException if the file ends inside the frame
     * @throws CaptureException if the frame is damaged or another was expected
     */
    boolean next() throws IOException {
        if (in.atEnd()) {
            return false;
        }
        FlacFrameHeader next = begin();
        decode(next);
        goOn(next);
        return true;
    }

    /**
     * Passes over the next frame by its checksum, without decoding it.
     *
     * @return false at the end of the file
     * @throws CaptureException if the frame is damaged or another was expected
     */
    boolean pass() throws IOException {
        if (in.atEnd()) {
            return false;
        }
        FlacFrameHeader next = begin();
        if (!in.goToFrameEnd()) {
            throw in.damaged("checksum does not come out right before the next frame");
        }
        goOn(next);
        return true;
    }

    private FlacFrameHeader begin() throws IOException {
        in.beginFrame(frames);
        FlacFrameHeader next = FlacFrameHeader.read(in);
        // before the bit for the sort of block had a meaning, a header with two block sizes told that frames bear
        // sample numbers
        if (frames == 1 && !next.variable() && header.blocksDiffer()) {
            numbersSamples = next.number() == samples && samples != 1;
        }
        checkOrder(next);
        checkFormat(next);
        return next;
    }

    private void goOn(FlacFrameHeader next) {
        first = first == null ? next : first;
        current = next;
        samples += next.samples();
        frames++;
    }

    private void decode(FlacFrameHeader next) throws IOException {
        int count = next.samples();
        for (int c = 0; c < decoded.length; c++) {
            if (decoded[c].length < count) {
                decoded[c] = new long[count];
            }
            subframe.read(decoded[c], count, header.bits() + next.stereo().moreBits(c));
        }
        in.align();
        int expected = in.frameSum();
        int found = (int) in.unsigned(16);
        if (found != expected) {
            throw in.damaged(String.format("checksum found %04x, expected %04x", found, expected));
        }
        if (next.stereo() != FlacStereo.INDEPENDENT) {
            next.stereo().undo(decoded[0], decoded[1], count);
        }
        for (long[] channel : decoded) {
            checkRange(channel, count);
        }
    }

    private void checkOrder(FlacFrameHeader next) throws CaptureException {
        boolean bySamples = next.variable() || numbersSamples;
        long expected = bySamples ? samples : frames;
        if (next.number() != expected) {
            throw in.damaged(
                    (bySamples ? "found first sample " : "found number ") + next.number() + ", expected " + expected);
        }
        if (first == null) {
            return;
        }
        if (next.variable() != first.variable()) {
            throw in.damaged("found a block of " + (next.variable() ? "variable" : "fixed")
                    + " size; expected the sort of the first");
        }
        if (!bySamples && current.samples() != first.samples() && start.frame() == 0) {
            throw in.damaged("found it behind a block of " + current.samples() + " samples; expected " + first.samples()
                    + " in every block but the last");
        }
    }

    private void checkFormat(FlacFrameHeader next) throws CaptureException {
        boolean sameRate = next.sampleRateHz() == 0 || next.sampleRateHz() == header.sampleRateHz();
        boolean sameBits = next.bits() == 0 || next.bits() == header.bits();
        if (!sameRate || !sameBits || next.channels() != header.channels()) {
            throw in.damaged("found " + format(next.sampleRateHz(), next.bits(), next.channels()) + ", expected "
                    + format(header.sampleRateHz(), header.bits(), header.channels())
                    + " as the header of the file says");
        }
    }

    private static String format(long rateHz, int bits, int channels) {
        return (rateHz == 0 ? "" : rateHz + " Hz, ") + (bits == 0 ? "" : bits + " bits, ") + channels + " channels";
    }

    /** A value that needs more bits than a sample has was never recorded. */
    private void checkRange(long[] channel, int count) throws CaptureException {
        long used = 0;
        for (int i = 0; i < count; i++) {
            used |= channel[i] ^ channel[i] >> 63;
        }
        if (used >>> header.bits() - 1 != 0) {
            throw in.damaged("found samples beyond the range of " + header.bits() + " bits");
        }
    }

    /** Where the next frame begins. */
    Place place() {
        return new Place(in.byteAt(), frames, samples, numbersSamples);
    }

    /** Frames decoded so far. */
    long frames() {
        return frames;
    }

    /** Samples in each channel of the frame just decoded. */
    int count() {
        return current.samples();
    }

    /** A channel of the frame just decoded; to be read only, and only until the next. */
    long[] channel(int channel) {
        return decoded[channel];
    }

    /** Place in the file of what comes next. */
    long byteAt() {
        return in.byteAt();
    }

    /** Whether something follows that does not begin like a frame. */
    boolean othersFollow() throws IOException {
        return !in.atEnd() && !FlacFrameHeader.isNext(in);
    }

    /** Whether one of the tags follows that players put behind the frames: ID3 version 1, APE. */
    boolean tagFollows() throws IOException {
        return in.peek(24) == ID3_V1 || in.peek(48) == APE;
    }

    /**
     * Whether the next frame but one begins behind a place: then a frame there that runs beyond the end of the file was
     * not cut off but is damaged. Looks at every byte up to the end for the header of a frame with its checksum.
     */
    boolean laterFrameFollows(long place) throws IOException {
        for (long at = place + 1; ; at++) {
            in.moveTo(at);
            if (in.atEnd()) {
                return false;
            }
            if (FlacFrameHeader.isNext(in) && isLaterFrame()) {
                return true;
            }
        }
    }

    private boolean isLaterFrame() throws IOException {
        try {
            in.beginFrame(frames);
            FlacFrameHeader later = FlacFrameHeader.read(in);
            boolean bySamples = later.variable() || numbersSamples;
            long ahead = later.number() - (bySamples ? samples : frames);
            return ahead > 0 && ahead <= (bySamples ? FlacFrameHeader.MOST_SAMPLES : 1);
        } catch (CaptureException | EOFException e) {
            return false;
        }
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
