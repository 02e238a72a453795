package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.signal.BlockReader;

/**
 * Odd but sound FLAC streams, as older encoders wrote them: RFC 9639 sections 8.1 (types of metadata that are reserved are to be
 * passed over), 8.2 (0 for what is not known), 9.1 (fixed and variable size of blocks).
 */
class FlacOddHeaderTest {
    @TempDir
    private Path folder;

    private static FlacBytes info(int least, int most, long samples) {
        return new FlacBytes().mark().block(true, 0, 34).info(least, most, 8000, 1, 16, samples);
    }

    private static void frame(FlacBytes bytes, boolean variable, int samples, long number, long value) {
        bytes.frame(variable, FlacBytes.SIZE_FOLLOWS, 0, 0, 0, number).bits(samples - 1L, 16);
        bytes.sum8().constant(16, value).sum16();
    }

    private static long[] blocks(int... sizes) {
        long[] samples = new long[Arrays.stream(sizes).sum()];
        int at = 0;
        for (int b = 0; b < sizes.length; b++) {
            Arrays.fill(samples, at, at + sizes[b], b + 1);
            at += sizes[b];
        }
        return samples;
    }

    /** Frames tell their own size; what the header says of blocks may be 0, too small or the wrong way round. */
    @ParameterizedTest
    @CsvSource({"0, 0", "0, 4096", "4096, 0", "1, 1", "16, 16", "4096, 16", "65535, 65535"})
    void block_sizes_of_the_header_do_not_matter(int least, int most) throws IOException {
        FlacBytes bytes = info(least, most, 40);
        frame(bytes, false, 16, 0, 1);
        frame(bytes, false, 16, 1, 2);
        frame(bytes, false, 8, 2, 3);
        FlacSource source = bytes.source(folder);

        assertArrayEquals(new long[][] {blocks(16, 16, 8)}, FlacBytes.samples(source));
        assertEquals(List.of(), source.remarks());
    }

    /** Before the bit for variable blocks had a meaning, two sizes in the header said that frames bear sample numbers. */
    @Test
    void sample_numbers_without_the_bit_for_variable_blocks() throws IOException {
        FlacBytes bytes = info(16, 40, 80);
        frame(bytes, false, 16, 0, 1);
        frame(bytes, false, 40, 16, 2);
        frame(bytes, false, 24, 56, 3);

        assertArrayEquals(new long[][] {blocks(16, 40, 24)}, FlacBytes.samples(bytes.source(folder)));
    }

    @Test
    void variable_blocks() throws IOException {
        FlacBytes bytes = info(8, 40, 0);
        frame(bytes, true, 16, 0, 1);
        frame(bytes, true, 40, 16, 2);
        frame(bytes, true, 8, 56, 3);

        assertArrayEquals(new long[][] {blocks(16, 40, 8)}, FlacBytes.samples(bytes.source(folder)));
    }

    @Test
    void blocks_of_one_sample_may_be_numbered_either_way() throws IOException {
        FlacBytes bytes = info(0, 1, 3);
        for (int i = 0; i < 3; i++) {
            frame(bytes, false, 1, i, i + 1);
        }

        assertArrayEquals(new long[][] {{1, 2, 3}}, FlacBytes.samples(bytes.source(folder)));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 50, 126})
    void metadata_of_any_type_is_passed(int type) throws IOException {
        FlacBytes bytes = new FlacBytes().mark().block(false, 0, 34).info(0, 0, 8000, 1, 16, 0);
        bytes.block(false, type, 18).raw(new byte[18]).block(true, type, 0);
        frame(bytes, false, 16, 0, 1);

        assertArrayEquals(new long[][] {blocks(16)}, FlacBytes.samples(bytes.source(folder)));
    }

    /** Without a promised length only the tag itself tells that the frames are over. */
    @ParameterizedTest
    @ValueSource(strings = {"TAG", "APETAGEX"})
    void a_tag_behind_frames_without_a_promised_length(String tag) throws IOException {
        FlacBytes bytes = info(16, 16, 0);
        frame(bytes, false, 16, 0, 1);
        bytes.raw(Arrays.copyOf(tag.getBytes(StandardCharsets.US_ASCII), 128));
        FlacSource source = bytes.source(folder);

        assertArrayEquals(new long[][] {blocks(16)}, FlacBytes.samples(source));
        assertTrue(
                source.remarks().get(0).startsWith("Behind the last frame"),
                source.remarks().toString());
    }

    private static FlacScan scan(FlacBits in, FlacHeader header) {
        return new FlacScan(new FlacFrames(in, header), header, "some.flac");
    }

    /** A file of random samples in blocks of 4096, some longer than a buffer. */
    private byte[] longFile(int frames, boolean variable, long seed) {
        Random random = new Random(seed);
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        all.writeBytes(info(4096, 4096, 4096L * frames).bytes());
        for (int f = 0; f < frames; f++) {
            FlacBytes one = new FlacBytes();
            one.frame(variable, 12, 0, 0, 0, variable ? 4096L * f : f).sum8();
            one.bits(1 << 1, 8);
            for (int i = 0; i < 4096; i++) {
                one.bits(random.nextInt(), 16);
            }
            all.writeBytes(one.sum16().bytes());
        }
        return all.toByteArray();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void passing_by_checksums_finds_what_decoding_finds(boolean variable) throws IOException {
        byte[] bytes = longFile(200, variable, 3);
        Path file = Files.write(folder.resolve("some.flac"), bytes);
        try (FlacBits in = new FlacBits(FileChannel.open(file, StandardOpenOption.READ), "some.flac")) {
            FlacHeader header = new FlacHeaderReader(in, "some.flac").read();
            FlacScan.Found decoded = scan(in, header).run();
            in.moveTo(header.firstFrameAt());
            FlacScan.Found passed = scan(in, header).pass().orElseThrow();

            assertEquals(decoded, passed);
            assertEquals(4, passed.places().size());
        }
    }

    /** A wrong byte anywhere leaves it to decoding to say what is wrong. */
    @Test
    void passing_by_checksums_stops_at_damage() throws IOException {
        byte[] whole = longFile(40, false, 4);
        Random random = new Random(9);
        for (int round = 0; round < 60; round++) {
            byte[] bytes =
                    round % 3 == 0 ? Arrays.copyOf(whole, whole.length - 1 - random.nextInt(60_000)) : whole.clone();
            if (round % 3 != 0) {
                bytes[42 + random.nextInt(bytes.length - 42)] ^= (byte) (1 << random.nextInt(8));
            }
            Path file = Files.write(folder.resolve("some.flac"), bytes);
            try (FlacBits in = new FlacBits(FileChannel.open(file, StandardOpenOption.READ), "some.flac")) {
                FlacHeader header = new FlacHeaderReader(in, "some.flac").read();
                assertEquals(Optional.empty(), scan(in, header).pass(), "round " + round);
            }
        }
    }

    @Test
    void any_sample_can_be_opened() throws IOException {
        FlacSource source = FlacBytes.source(folder, longFile(600, false, 5));
        double[] whole = ReadBack.channel(source, 0);
        assertTrue(source.opensAnywhere());
        for (long at :
                new long[] {0, 1, 4095, 4096, 262_143, 262_144, 262_145, 1_000_000, 2_457_599, 2_457_600, 9_000_000}) {
            try (BlockReader reader = source.openAt(at)) {
                double[][] block = new double[1][3000];
                int count = reader.read(block);
                assertEquals(Math.max(0, Math.min(3000, whole.length - at)), count, "at " + at);
                for (int i = 0; i < count; i++) {
                    assertEquals(whole[(int) at + i], block[0][i], "sample " + (at + i));
                }
            }
        }
    }

    /** Streams of the installed encoder without seek table, padding and MD5 of its own, and with an odd last block. */
    @ParameterizedTest
    @ValueSource(strings = {"--no-seektable --no-padding", "--lax -b 100", "-S 0.1s --padding=70000", "--no-md5-sum"})
    void streams_of_an_encoder(String options) throws Exception {
        Path encoder = Path.of("/usr/bin/flac");
        assumeTrue(Files.isExecutable(encoder), encoder + " is not installed");
        byte[] pcm = new byte[2 * 20_011];
        new Random(8).nextBytes(pcm);
        Path wav = Files.write(
                folder.resolve("plain.wav"),
                new WavBytes().format(1, 1, 8000, 16).chunk("data", pcm).bytes());
        Path coded = folder.resolve("coded.flac");
        ArrayList<String> command = new ArrayList<>(List.of(encoder.toString(), "-s", "-f"));
        command.addAll(List.of(options.split(" ")));
        command.addAll(List.of("-o", coded.toString(), wav.toString()));
        assertEquals(0, new ProcessBuilder(command).inheritIO().start().waitFor());

        FlacSource source = FlacSource.open(coded, "coded.flac");
        assertEquals(List.of(), source.remarks());
        assertArrayEquals(ReadBack.all(PcmSource.openWav(wav, "plain.wav"), 999), ReadBack.all(source, 777));
    }
}
