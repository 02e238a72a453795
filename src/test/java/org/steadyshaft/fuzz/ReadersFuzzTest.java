package org.steadyshaft.fuzz;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.Thorough;

/** Replays the fuzzer's corpus and some thousand seeded changes of it. */
class ReadersFuzzTest {
    private static final Path CORPUS = Path.of("src/test/resources/org/steadyshaft/fuzz/corpus");
    private static final long SEED = 16;

    static List<Path> corpus() throws IOException {
        try (Stream<Path> files = Files.list(CORPUS)) {
            return files.sorted().toList();
        }
    }

    @Test
    void there_is_a_seed_for_every_reader() throws IOException {
        assertTrue(corpus().size() >= 12, corpus().toString());
    }

    @ParameterizedTest
    @MethodSource("corpus")
    void is_read_or_refused_in_words(Path file) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        ReadersFuzz.fuzzerTestOneInput(bytes);
        Random random = new Random(SEED);
        for (int i = 0; i < Thorough.count(40, 5000); i++) {
            ReadersFuzz.fuzzerTestOneInput(changed(bytes, random));
        }
    }

    /** A few bytes changed, or a part cut out, or a part repeated. */
    private static byte[] changed(byte[] bytes, Random random) {
        byte[] other = bytes.clone();
        int from = random.nextInt(bytes.length);
        int length = random.nextInt(Math.min(64, bytes.length - from) + 1);
        switch (random.nextInt(3)) {
            case 0 -> {
                for (int i = 0; i < 1 + random.nextInt(8); i++) {
                    other[random.nextInt(other.length)] = (byte) random.nextInt(256);
                }
            }
            case 1 -> {
                other = new byte[bytes.length - length];
                System.arraycopy(bytes, 0, other, 0, from);
                System.arraycopy(bytes, from + length, other, from, bytes.length - from - length);
            }
            default -> {
                other = new byte[bytes.length + length];
                System.arraycopy(bytes, 0, other, 0, from + length);
                System.arraycopy(bytes, from, other, from + length, bytes.length - from);
            }
        }
        return other;
    }
}
