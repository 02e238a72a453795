package org.steadyshaft.capture;

import java.io.EOFException;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * A FLAC recording, decoded frame by frame as it is read. Format: RFC 9639. Opening goes through all of it once, so
 * that a damaged file is refused before anything is measured and a file that was cut off counts only what is there.
 */
public final class FlacSource implements SampleSource {
    /** Files above this are gone through by the checksums of their frames alone: about 40 s of sound at 96 kHz. */
    private static final long LONG_FILE_BYTES = 4L << 20;

    private final Path file;
    private final String name;
    private final FlacHeader header;
    private final FlacScan.Found found;

    private FlacSource(Path file, String name, FlacHeader header, FlacScan.Found found) {
        this.file = file;
        this.name = name;
        this.header = header;
        this.found = found;
    }

    /**
     * Reads the header and checks every frame.
     *
     * @throws CaptureException if the header or a frame is damaged; a missing end is only a remark
     */
    public static FlacSource open(Path file, String name) throws IOException {
        try (FlacBits in = new FlacBits(FileChannel.open(file, StandardOpenOption.READ), name)) {
            FlacHeader header = new FlacHeaderReader(in, name).read();
            if (Files.size(file) > LONG_FILE_BYTES) {
                Optional<FlacScan.Found> passed = new FlacScan(new FlacFrames(in, header), header, name).pass();
                if (passed.isPresent()) {
                    return new FlacSource(file, name, header, passed.get());
                }
                in.moveTo(header.firstFrameAt());
            }
            return new FlacSource(file, name, header, new FlacScan(new FlacFrames(in, header), header, name).run());
        }
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return header.sampleRateHz();
    }

    @Override
    public long samples() {
        return found.samples();
    }

    @Override
    public int channels() {
        return header.channels();
    }

    @Override
    public String channelName(int channel) {
        return Integer.toString(channel + 1);
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "FLAC",
                "FLAC " + header.bits() + " bit",
                "FS",
                OptionalDouble.of(1),
                OptionalDouble.of(Math.scalb(1, 1 - header.bits())),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return found.remarks();
    }

    @Override
    public BlockReader open() throws IOException {
        return openAt(0);
    }

    @Override
    public boolean opensAnywhere() {
        return true;
    }

    @Override
    public BlockReader openAt(long sample) throws IOException {
        long from = Math.min(Math.max(0, sample), found.samples());
        FlacFrames.Place start = found.before(from);
        Reader reader = new Reader(FlacFrames.open(file, name, header, start), start.sample());
        try {
            reader.skip(from - start.sample());
        } catch (IOException | RuntimeException e) {
            reader.close();
            throw e;
        }
        return reader;
    }

    private final class Reader implements BlockReader {
        private final FlacFrames frames;
        private final double step = Math.scalb(1, 1 - header.bits());
        private long left;
        private int inFrame;
        private int taken;

        Reader(FlacFrames frames, long sample) {
            this.frames = frames;
            this.left = found.samples() - sample;
        }

        void skip(long samples) throws IOException {
            for (long rest = samples; rest > 0; ) {
                if (taken == inFrame) {
                    nextFrame();
                }
                int count = (int) Math.min(rest, inFrame - taken);
                taken += count;
                left -= count;
                rest -= count;
            }
        }

        @Override
        public int read(double[][] block) throws IOException {
            int wanted = (int) Math.min(block[0].length, left);
            int done = 0;
            while (done < wanted) {
                if (taken == inFrame) {
                    nextFrame();
                }
                int count = Math.min(wanted - done, inFrame - taken);
                for (int c = 0; c < header.channels(); c++) {
                    scale(frames.channel(c), count, block[c], done);
                }
                taken += count;
                done += count;
            }
            left -= done;
            return done;
        }

        private void nextFrame() throws IOException {
            boolean there;
            try {
                there = frames.next();
            } catch (EOFException e) {
                there = false;
            }
            if (!there) {
                throw new CaptureException(name + ": the file became shorter while it was read");
            }
            inFrame = frames.count();
            taken = 0;
        }

        private void scale(long[] from, int count, double[] to, int at) {
            for (int i = 0; i < count; i++) {
                to[at + i] = from[taken + i] * step;
            }
        }

        @Override
        public void close() throws IOException {
            frames.close();
        }
    }
}
