package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/**
 * Files of every format with seeded damage: bytes flipped, cut, spliced, lengths made huge. Each gives a refusal that names
 * the file, or a reading that its own records accept; never another exception, never a hang. How many files is set by
 * -Dsteadyshaft.damaged=N (20000 takes some minutes); -Dtest.heap=256m shows that no damage asks for much memory.
 */
class DamagedFilesTest {
    private static final int FILES = Integer.getInteger("steadyshaft.damaged", Thorough.count(200, 1200));
    private static final Duration LONGEST = Duration.ofSeconds(20);

    @TempDir
    static Path folder;

    private static final Map<String, byte[]> WHOLE = new LinkedHashMap<>();

    @BeforeAll
    static void makeWholeFiles() throws IOException {
        Settings settings = Settings.clean(8000, 0.6).withShape(0.5, 0.03, 0.03).withNoise(0.002, 5);
        DrawnTacho tacho = new DrawnTacho("whole", DrawnSpeed.level(1100), settings);
        for (int bits : new int[] {16, 24}) {
            Path file = folder.resolve("whole.wav");
            new WavWriter(bits).write(tacho, file);
            WHOLE.put("wav" + bits, Files.readAllBytes(file));
        }
        WHOLE.put("float", asFloat(WHOLE.get("wav16")));
        WHOLE.put("aiff", asAiff(WHOLE.get("wav16")));
        Path text = folder.resolve("whole.csv");
        new ScopeTextWriter(4).write(tacho, text);
        String comma = Files.readString(text);
        WHOLE.put("text", comma.getBytes(StandardCharsets.UTF_8));
        String semicolon = comma.replace(',', ';').replace('.', ',');
        WHOLE.put("semicolon", ("Sample rate: 8 kHz\n" + semicolon).getBytes(StandardCharsets.UTF_8));
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream zip = new GZIPOutputStream(packed)) {
            zip.write(WHOLE.get("text"));
        }
        WHOLE.put("packed", packed.toByteArray());
        Path flac = Path.of("src/test/resources/org/steadyshaft/flac");
        if (Files.isDirectory(flac)) {
            try (var files = Files.list(flac)) {
                for (Path file : files.filter(f -> f.toString().endsWith(".flac"))
                        .sorted()
                        .limit(2)
                        .toList()) {
                    WHOLE.put("flac " + file.getFileName(), Files.readAllBytes(file));
                }
            }
        }
    }

    /** The samples of a 16-bit WAV file as 32-bit float. */
    private static byte[] asFloat(byte[] wav) {
        ByteBuffer in = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
        int samples = (wav.length - 44) / 2;
        ByteBuffer out = ByteBuffer.allocate(44 + 4 * samples).order(ByteOrder.LITTLE_ENDIAN);
        out.put(wav, 0, 44)
                .putShort(20, (short) 3)
                .putInt(28, 32000)
                .putShort(32, (short) 4)
                .putShort(34, (short) 32);
        out.putInt(40, 4 * samples).putInt(4, 36 + 4 * samples);
        for (int i = 0; i < samples; i++) {
            out.putFloat(in.getShort(44 + 2 * i) / 32768f);
        }
        return out.array();
    }

    private static byte[] asAiff(byte[] wav) {
        int samples = (wav.length - 44) / 2;
        ByteBuffer out = ByteBuffer.allocate(54 + 2 * samples);
        out.put("FORM".getBytes(StandardCharsets.US_ASCII)).putInt(46 + 2 * samples);
        out.put("AIFFCOMM".getBytes(StandardCharsets.US_ASCII))
                .putInt(18)
                .putShort((short) 1)
                .putInt(samples);
        out.putShort((short) 16).put(HexFormat.of().parseHex("400BFA00000000000000"));
        out.put("SSND".getBytes(StandardCharsets.US_ASCII))
                .putInt(8 + 2 * samples)
                .putInt(0)
                .putInt(0);
        for (int i = 0; i < samples; i++) {
            out.put(wav[45 + 2 * i]).put(wav[44 + 2 * i]);
        }
        return out.array();
    }

    private static byte[] damaged(byte[] whole, Random random) {
        byte[] bytes = whole.clone();
        int head = Math.min(bytes.length, random.nextInt(3) == 0 ? bytes.length : 120);
        switch (random.nextInt(6)) {
            case 0 -> {
                for (int i = 0; i <= random.nextInt(4); i++) {
                    bytes[random.nextInt(head)] ^= (byte) (1 << random.nextInt(8));
                }
            }
            case 1 -> bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
            case 2 -> {
                int from = random.nextInt(bytes.length);
                int to = random.nextInt(bytes.length);
                System.arraycopy(bytes, from, bytes, to, Math.min(bytes.length - Math.max(from, to), 500));
            }
            case 3 -> {
                int at = random.nextInt(Math.max(1, head - 4));
                byte[] huge = random.nextBoolean() ? new byte[] {-1, -1, -1, -1} : new byte[] {-1, -1, -1, 127};
                System.arraycopy(huge, 0, bytes, at, Math.min(4, bytes.length - at));
            }
            case 4 -> bytes[random.nextInt(head)] = (byte) random.nextInt(256);
            default -> {
                int at = random.nextInt(bytes.length);
                byte[] longer = new byte[bytes.length + 1 + random.nextInt(40)];
                random.nextBytes(longer);
                System.arraycopy(bytes, 0, longer, 0, at);
                System.arraycopy(bytes, at, longer, longer.length - (bytes.length - at), bytes.length - at);
                bytes = longer;
            }
        }
        return bytes;
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void damageIsRefusedOrReadHonestly(long seed) throws IOException {
        Random random = new Random(seed);
        Path file = folder.resolve("damaged" + seed);
        int refused = 0;
        int read = 0;
        String[] kinds = WHOLE.keySet().toArray(new String[0]);
        for (int i = 0; i < FILES / 4; i++) {
            String kind = kinds[i % kinds.length];
            Files.write(file, damaged(WHOLE.get(kind), random));
            String which = "seed " + seed + ", file " + i + ", " + kind;
            boolean wasRead = Assertions.assertTimeoutPreemptively(LONGEST, () -> analyse(file, which), which);
            read += wasRead ? 1 : 0;
            refused += wasRead ? 0 : 1;
        }
        assertTrue(refused > FILES / 40 && read > FILES / 40, "refused " + refused + ", read " + read);
    }

    private static boolean analyse(Path file, String which) {
        try {
            Outcome.Analysed outcome = new CaptureAnalyser(
                            new AnalysisSettings(8, AnalysisSettings.PolePairsFrom.OPTION, 50, Optional.empty()))
                    .analyse(Recordings.open(file, "some.file", ReadOptions.NONE), "", CaptureLabel.NONE);
            assertTrue(outcome.source().samples() > 0, which);
            return true;
        } catch (IOException e) {
            assertTrue(e.getMessage() != null && e.getMessage().startsWith("some.file"), which + ": " + e);
            return false;
        } catch (RuntimeException | OutOfMemoryError e) {
            return fail(which + ": " + e, e);
        }
    }
}
