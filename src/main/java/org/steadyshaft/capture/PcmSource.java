package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/** A recording of plain samples (WAV, AIFF), streamed through one direct buffer. */
public final class PcmSource implements SampleSource {
    private static final int BUFFER_BYTES = 1 << 18;

    /** Full scale is 1, some recorders write volts or counts; beyond this a float is damage. */
    private static final double LARGEST_SAMPLE = 1e12;

    private final Path file;
    private final String name;
    private final PcmHeader header;

    private PcmSource(Path file, String name, PcmHeader header) {
        this.file = file;
        this.name = name;
        this.header = header;
    }

    /**
     * Reads the header of a WAV file: RIFF, RF64 or the big-endian RIFX.
     *
     * @throws CaptureException if it is damaged or its code is not supported
     */
    public static PcmSource openWav(Path file, String name) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            return new PcmSource(file, name, new WavHeaderReader(channel, name).read());
        }
    }

    /**
     * Reads the header of an AIFF or AIFF-C file.
     *
     * @throws CaptureException if it is damaged or its code is not supported
     */
    public static PcmSource openAiff(Path file, String name) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            return new PcmSource(file, name, new AiffHeaderReader(channel, name).read());
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
        return header.frames();
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
        PcmEncoding encoding = header.encoding();
        return new SampleFormat(
                header.container(),
                encoding.title(),
                "FS",
                encoding.isFloat() ? OptionalDouble.empty() : OptionalDouble.of(1),
                encoding.isFloat() ? OptionalDouble.empty() : OptionalDouble.of(Math.scalb(1, 1 - header.validBits())),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return header.remarks();
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
        return new Reader(
                FileChannel.open(file, StandardOpenOption.READ), Math.min(Math.max(0, sample), header.frames()));
    }

    private final class Reader implements BlockReader {
        private final FileChannel channel;
        private final ByteBuffer buffer;
        private long frame;

        Reader(FileChannel channel, long firstFrame) {
            this.channel = channel;
            this.frame = firstFrame;
            int frames = Math.max(1, BUFFER_BYTES / header.frameBytes());
            this.buffer =
                    ByteBuffer.allocateDirect(frames * header.frameBytes()).order(header.order());
        }

        @Override
        public int read(double[][] block) throws IOException {
            int wanted = (int) Math.min(block[0].length, header.frames() - frame);
            int frames = Math.min(wanted, buffer.capacity() / header.frameBytes());
            if (frames == 0) {
                return 0;
            }
            fill(frames);
            for (int c = 0; c < header.channels(); c++) {
                header.encoding()
                        .decode(
                                buffer,
                                frames,
                                header.frameBytes(),
                                c * header.encoding().bytes(),
                                block[c]);
                if (header.encoding().isFloat()) {
                    refuseNonNumbers(block[c], frames, c);
                }
            }
            frame += frames;
            return frames;
        }

        private void fill(int frames) throws IOException {
            buffer.clear().limit(frames * header.frameBytes());
            long at = header.dataOffset() + frame * header.frameBytes();
            while (buffer.hasRemaining()) {
                if (channel.read(buffer, at + buffer.position()) < 0) {
                    throw new CaptureException(name + ": the file became shorter while it was read");
                }
            }
        }

        private void refuseNonNumbers(double[] samples, int count, int c) throws CaptureException {
            for (int i = 0; i < count; i++) {
                if (!(Math.abs(samples[i]) <= LARGEST_SAMPLE)) {
                    throw new CaptureException(name + ": sample " + (frame + i) + " of channel " + (c + 1) + " is "
                            + samples[i] + "; expected a finite number of at most 1e12");
                }
            }
        }

        @Override
        public void close() throws IOException {
            channel.close();
        }
    }
}
