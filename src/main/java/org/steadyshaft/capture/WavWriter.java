package org.steadyshaft.capture;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/** Writes a source of full scale 1 as WAV of 16 or 24 bits; what is beyond full scale is clipped, as a recorder would. */
public final class WavWriter {
    private static final int HEADER_BYTES = 44;
    private static final long MOST_DATA_BYTES = 0xFFFFFFFFL - HEADER_BYTES;

    private final int bits;

    /** @param bits 16 or 24 */
    public WavWriter(int bits) {
        PcmSteps.check(bits);
        this.bits = bits;
    }

    /**
     * Writes a recording.
     *
     * @throws IOException if the file cannot be written, or the recording is too long for the format
     */
    public void write(SampleSource source, Path file) throws IOException {
        int frameBytes = source.channels() * bits / 8;
        long dataBytes = source.samples() * frameBytes;
        if (dataBytes > MOST_DATA_BYTES) {
            throw new IOException(
                    file + ": " + dataBytes + " bytes of samples; WAV holds " + MOST_DATA_BYTES + " at most");
        }
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16);
                BlockReader reader = source.open()) {
            out.write(header(source, frameBytes, dataBytes));
            double[][] block = new double[source.channels()][4096];
            byte[] bytes = new byte[4096 * frameBytes];
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                encode(block, count, bytes);
                out.write(bytes, 0, count * frameBytes);
            }
            if (dataBytes % 2 == 1) {
                out.write(0);
            }
        }
    }

    private byte[] header(SampleSource source, int frameBytes, long dataBytes) {
        int rate = (int) Math.round(source.sampleRateHz());
        ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
        header.put(ascii("RIFF")).putInt((int) (HEADER_BYTES - 8 + dataBytes + dataBytes % 2));
        header.put(ascii("WAVE")).put(ascii("fmt ")).putInt(16).putShort((short) 1);
        header.putShort((short) source.channels()).putInt(rate).putInt(rate * frameBytes);
        header.putShort((short) frameBytes).putShort((short) bits);
        header.put(ascii("data")).putInt((int) dataBytes);
        return header.array();
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    private void encode(double[][] block, int count, byte[] bytes) {
        int at = 0;
        for (int i = 0; i < count; i++) {
            for (double[] channel : block) {
                int value = PcmSteps.of(channel[i], bits);
                for (int shift = 0; shift < bits; shift += 8) {
                    bytes[at++] = (byte) (value >> shift);
                }
            }
        }
    }
}
