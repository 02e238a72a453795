package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.SampleSource;

/** AIFF and AIFF-C in every plain kind, damaged ones, and the big-endian sister of WAV. */
class AiffSourceTest {
    private static final String RATE_48000 = "400EBB80000000000000";
    private static final double[] VALUES = {0, 0.5, -0.25, -1, 0.125};

    @TempDir
    Path folder;

    private SampleSource open(byte[] bytes) throws IOException {
        Path file = folder.resolve("some.aiff");
        Files.write(file, bytes);
        return Recordings.open(file, "some.aiff", ReadOptions.NONE);
    }

    private static byte[] chunk(String id, byte[] data) {
        ByteBuffer chunk =
                ByteBuffer.allocate(8 + data.length + data.length % 2).order(ByteOrder.BIG_ENDIAN);
        return chunk.put(id.getBytes(StandardCharsets.US_ASCII))
                .putInt(data.length)
                .put(data)
                .array();
    }

    private static byte[] aiff(String code, int bits, int frames, byte[] samples) throws IOException {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        body.write((code.isEmpty() ? "AIFF" : "AIFC").getBytes(StandardCharsets.US_ASCII));
        ByteBuffer common = ByteBuffer.allocate(code.isEmpty() ? 18 : 24).order(ByteOrder.BIG_ENDIAN);
        common.putShort((short) 1).putInt(frames).putShort((short) bits);
        common.put(HexFormat.of().parseHex(RATE_48000));
        if (!code.isEmpty()) {
            common.put(code.getBytes(StandardCharsets.US_ASCII));
        }
        body.write(chunk("NAME", "odd".getBytes(StandardCharsets.US_ASCII)));
        body.write(chunk("COMM", common.array()));
        ByteBuffer sound = ByteBuffer.allocate(8 + samples.length);
        body.write(chunk("SSND", sound.putInt(0).putInt(0).put(samples).array()));
        return chunk("FORM", body.toByteArray());
    }

    /** The values as samples of so many bits, or as floats. */
    private static byte[] samples(int bits, boolean floats, ByteOrder order) {
        int bytes = (bits + 7) / 8;
        ByteBuffer out = ByteBuffer.allocate(VALUES.length * bytes).order(order);
        for (double value : VALUES) {
            if (floats) {
                ByteBuffer one = bits == 32 ? out.putFloat((float) value) : out.putDouble(value);
                assertTrue(one == out);
                continue;
            }
            long scaled = Math.round(value * Math.scalb(1.0, 8 * bytes - 1));
            for (int i = 0; i < bytes; i++) {
                int place = order == ByteOrder.BIG_ENDIAN ? bytes - 1 - i : i;
                out.put((byte) (scaled >> 8 * place));
            }
        }
        return out.array();
    }

    @ParameterizedTest(name = "{0} {1} bits")
    @CsvSource({
        "'', 8, false, big",
        "'', 12, false, big",
        "'', 16, false, big",
        "'', 20, false, big",
        "'', 24, false, big",
        "'', 32, false, big",
        "NONE, 16, false, big",
        "twos, 24, false, big",
        "sowt, 16, false, little",
        "sowt, 24, false, little",
        "fl32, 32, true, big",
        "FL64, 64, true, big",
        "in24, 24, false, big"
    })
    void everyPlainKindIsReadExactly(String code, int bits, boolean floats, String order) throws IOException {
        ByteOrder bytes = order.equals("big") ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
        SampleSource source = open(aiff(code, bits, VALUES.length, samples(bits, floats, bytes)));
        assertEquals(48000, source.sampleRateHz());
        double[] read = ReadBack.channel(source, 0);
        assertEquals(VALUES.length, read.length);
        for (int i = 0; i < VALUES.length; i++) {
            assertEquals(VALUES[i], read[i], "sample " + i);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"ulaw", "ima4", "GSM "})
    void packedKindsAreRefusedByName(String code) {
        String message = assertThrows(CaptureException.class, () -> open(aiff(code, 16, 5, new byte[10])))
                .getMessage();
        assertTrue(message.startsWith("some.aiff: samples are coded as '" + code + "'"), message);
    }

    @Test
    void aCutFileGivesWhatIsThere() throws IOException {
        byte[] whole = aiff("", 16, VALUES.length, samples(16, false, ByteOrder.BIG_ENDIAN));
        SampleSource source = open(Arrays.copyOf(whole, whole.length - 4));
        assertEquals(VALUES.length - 2, source.samples());
        assertEquals(1, source.remarks().size());
    }

    @Test
    void everyShorterFileIsReadOrRefused() throws IOException {
        byte[] whole = aiff("NONE", 24, VALUES.length, samples(24, false, ByteOrder.BIG_ENDIAN));
        int refused = 0;
        for (int length = 1; length < whole.length - 1; length++) {
            try {
                assertTrue(open(Arrays.copyOf(whole, length)).samples() < VALUES.length);
            } catch (CaptureException e) {
                refused++;
                assertTrue(e.getMessage().startsWith("some.aiff"), e.getMessage());
            }
        }
        assertTrue(refused > 40, "refused " + refused);
    }

    @ParameterizedTest
    @ValueSource(ints = {8, 16, 24, 32})
    void bigEndianWavIsReadExactly(int bits) throws IOException {
        byte[] samples = samples(bits, false, ByteOrder.BIG_ENDIAN);
        if (bits == 8) {
            for (int i = 0; i < samples.length; i++) {
                samples[i] ^= (byte) 0x80;
            }
        }
        ByteBuffer wav = ByteBuffer.allocate(44 + samples.length).order(ByteOrder.BIG_ENDIAN);
        wav.put("RIFX".getBytes(StandardCharsets.US_ASCII)).putInt(36 + samples.length);
        wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII))
                .putInt(16)
                .putShort((short) 1)
                .putShort((short) 1);
        wav.putInt(8000).putInt(8000 * bits / 8).putShort((short) (bits / 8)).putShort((short) bits);
        wav.put("data".getBytes(StandardCharsets.US_ASCII))
                .putInt(samples.length)
                .put(samples);
        SampleSource source = open(wav.array());
        assertEquals("WAV RIFX", source.format().container());
        double[] read = ReadBack.channel(source, 0);
        for (int i = 0; i < VALUES.length; i++) {
            assertEquals(VALUES[i], read[i], "sample " + i);
        }
    }

    /** Twelve and twenty bits stand left in two and three bytes. */
    @ParameterizedTest
    @ValueSource(ints = {12, 20})
    void wavOfTwelveAndTwentyBitsIsReadExactly(int bits) throws IOException {
        byte[] samples = samples(bits, false, ByteOrder.LITTLE_ENDIAN);
        int bytes = (bits + 7) / 8;
        ByteBuffer wav = ByteBuffer.allocate(44 + samples.length).order(ByteOrder.LITTLE_ENDIAN);
        wav.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + samples.length);
        wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII))
                .putInt(16)
                .putShort((short) 1)
                .putShort((short) 1);
        wav.putInt(8000).putInt(8000 * bytes).putShort((short) bytes).putShort((short) bits);
        wav.put("data".getBytes(StandardCharsets.US_ASCII))
                .putInt(samples.length)
                .put(samples);
        double[] read = ReadBack.channel(open(wav.array()), 0);
        for (int i = 0; i < VALUES.length; i++) {
            assertEquals(VALUES[i], read[i], "sample " + i);
        }
    }

    /** A recording of more than 4 GB, most of it a hole in the file that takes no room on the disk. */
    @Test
    void aFileOverFourGigabytesHasAllItsSamples() throws IOException {
        long dataBytes = 5_000_000_000L;
        ByteBuffer head = ByteBuffer.allocate(80).order(ByteOrder.LITTLE_ENDIAN);
        head.put("RF64".getBytes(StandardCharsets.US_ASCII)).putInt(-1);
        head.put("WAVEds64".getBytes(StandardCharsets.US_ASCII))
                .putInt(28)
                .putLong(dataBytes + 72)
                .putLong(dataBytes);
        head.putLong(dataBytes / 2).putInt(0);
        head.put("fmt ".getBytes(StandardCharsets.US_ASCII))
                .putInt(16)
                .putShort((short) 1)
                .putShort((short) 1);
        head.putInt(96000).putInt(192000).putShort((short) 2).putShort((short) 16);
        head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(-1);
        Path file = folder.resolve("long.wav");
        try (RandomAccessFile out = new RandomAccessFile(file.toFile(), "rw")) {
            out.write(head.array());
            out.setLength(80 + dataBytes);
        }
        SampleSource source = Recordings.open(file, "long.wav", ReadOptions.NONE);
        assertEquals(dataBytes / 2, source.samples());
        assertEquals(List.of(), source.remarks());
    }
}
