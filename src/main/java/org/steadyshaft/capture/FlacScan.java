package org.steadyshaft.capture;

import java.io.EOFException;
import java.io.IOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * Goes through every frame of a file once, to learn how many samples it really holds and whether they are those that were
 * recorded. The MD5 is that of the samples, channels in turn, low byte first, whole bytes: RFC 9639 section 8.2.
 * A long file is not decoded for that: the checksum of each frame is enough ({@link #pass()}).
 */
final class FlacScan {
    /** A reader can start at a frame about every so many samples. */
    private static final long PLACE_SAMPLES = 1 << 18;

    /** Frames at the beginning that are decoded in any case. */
    private static final int DECODED_FRAMES = 16;

    private final FlacFrames frames;
    private final FlacHeader header;
    private final String name;
    private final MessageDigest md5;
    private final List<String> remarks = new ArrayList<>();
    private final List<FlacFrames.Place> places = new ArrayList<>();
    private byte[] bytes = new byte[0];

    FlacScan(FlacFrames frames, FlacHeader header, String name) {
        this.frames = frames;
        this.header = header;
        this.name = name;
        this.places.add(frames.place());
        try {
            this.md5 = MessageDigest.getInstance("MD5");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has MD5", e);
        }
    }

    /**
     * What a scan found.
     *
     * @param samples in each channel, in whole frames
     * @param places where a reader can start, in order; the first one is the beginning
     * @param remarks what is odd
     */
    record Found(long samples, List<FlacFrames.Place> places, List<String> remarks) {
        Found {
            if (samples < 1) {
                throw new IllegalArgumentException(samples + " samples; expected at least 1");
            }
            places = List.copyOf(places);
            remarks = List.copyOf(remarks);
        }

        /** The last place that is not behind a sample. */
        FlacFrames.Place before(long sample) {
            int low = 0;
            for (int high = places.size() - 1; low < high; ) {
                int middle = (low + high + 1) / 2;
                low = places.get(middle).sample() <= sample ? middle : low;
                high = places.get(middle).sample() <= sample ? high : middle - 1;
            }
            return places.get(low);
        }
    }

    /**
     * Goes through the frames by their checksums without decoding any but the first few, several times as fast. The MD5 of all samples
     * is not checked then.
     *
     * @return empty if anything is odd: then {@link #run()} on a new scan tells what
     */
    Optional<Found> pass() throws IOException {
        try {
            long samples = 0;
            while (!isOver(samples) && (frames.frames() < DECODED_FRAMES ? frames.next() : frames.pass())) {
                samples += frames.count();
                notePlace();
            }
            if (samples < Math.max(1, header.promisedSamples())) {
                return Optional.empty();
            }
            remarkLength(samples, true);
            return Optional.of(new Found(samples, places, remarks));
        } catch (CaptureException | EOFException e) {
            return Optional.empty();
        }
    }

    /** Remembers where the next frame begins, if the last place that is remembered is far enough back. */
    private void notePlace() {
        FlacFrames.Place next = frames.place();
        if (next.sample() - places.get(places.size() - 1).sample() >= PLACE_SAMPLES) {
            places.add(next);
        }
    }

    /**
     * Goes through the frames.
     *
     * @throws CaptureException if one is damaged or none is there
     */
    Found run() throws IOException {
        long samples = 0;
        long at = frames.byteAt();
        boolean cut = false;
        try {
            while (!isOver(samples) && frames.next()) {
                digest();
                samples += frames.count();
                at = frames.byteAt();
                notePlace();
            }
        } catch (EOFException e) {
            cut = true;
        }
        if (cut && frames.laterFrameFollows(at)) {
            throw new CaptureException(name + ": frame " + frames.frames() + " at byte " + at
                    + ": runs beyond the end of the file, expected it to end before the next frame; the recording is"
                    + " damaged there");
        }
        if (samples == 0) {
            throw new CaptureException(
                    name + ": byte " + at + ": found no whole frame of samples; expected at least 1");
        }
        if (cut) {
            remarkCut(samples, at);
        }
        remarkLength(samples, cut);
        return new Found(samples, places, remarks);
    }

    private void remarkCut(long samples, long at) {
        String promised = header.promisedSamples() == 0 ? "" : " of " + header.promisedSamples() + " promised";
        remarks.add("The file ends inside frame " + frames.frames() + ", which begins at byte " + at
                + ": the end of the recording is missing, or that frame is damaged. The " + samples + promised
                + " samples before were used.");
    }

    /** Behind the promised samples there may be something else than frames, such as a tag. */
    private boolean isOver(long samples) throws IOException {
        boolean complete = header.promisedSamples() > 0 ? samples >= header.promisedSamples() : frames.tagFollows();
        boolean over = samples > 0 && complete && frames.othersFollow();
        if (over) {
            remarks.add("Behind the last frame, from byte " + frames.byteAt()
                    + " on, stands something that is no recording; it was not used.");
        }
        return over;
    }

    /** @param cut whether not all samples went through the MD5 */
    private void remarkLength(long samples, boolean cut) {
        long promised = header.promisedSamples();
        if (promised == 0) {
            remarks.add("The header does not say how long the recording is (the recorder was stopped before it could"
                    + " write that, or did not know); everything up to the end of the file was taken.");
        } else if (promised > samples && !cut) {
            remarks.add("The header promises " + promised + " samples, the file holds " + samples
                    + ": its end is missing. What is there was used.");
        } else if (promised < samples) {
            remarks.add("The header promises " + promised + " samples, the file holds " + samples
                    + "; all of them were used.");
        }
        if (cut || promised > samples) {
            return;
        }
        String found = HexFormat.of().formatHex(md5.digest());
        if (!header.md5().isEmpty() && !found.equals(header.md5())) {
            remarks.add("The samples are not those the header was written for: their MD5 is " + found
                    + ", the header says " + header.md5() + ". Every frame by itself is sound.");
        }
    }

    private void digest() {
        int width = (header.bits() + 7) / 8;
        int stride = width * header.channels();
        int count = frames.count();
        if (bytes.length < count * stride) {
            bytes = new byte[count * stride];
        }
        for (int c = 0; c < header.channels(); c++) {
            long[] channel = frames.channel(c);
            for (int b = 0; b < width; b++) {
                for (int i = 0, to = c * width + b; i < count; i++, to += stride) {
                    bytes[to] = (byte) (channel[i] >> 8 * b);
                }
            }
        }
        md5.update(bytes, 0, count * stride);
    }
}
