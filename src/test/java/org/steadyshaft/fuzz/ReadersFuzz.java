package org.steadyshaft.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.capture.RunSheet;
import org.steadyshaft.compare.LimitsReader;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * Feeds any bytes to everything that reads a stranger's file: recordings of all formats, run sheets, limits. A file may be refused with an
 * {@link IOException} whose message is words; whatever else comes out is a defect, and so is a message that shows an exception's own text.
 *
 * <p>A coverage-guided fuzzer calls {@link #fuzzerTestOneInput} in a process of its own; DEVELOPERS.md says how. {@link ReadersFuzzTest}
 * replays the corpus.
 */
public final class ReadersFuzz {
    private static final int BLOCK_SAMPLES = 4096;

    /** Enough for every branch of a reader; a made header may promise any number. */
    private static final long MOST_SAMPLES = 1 << 20;

    private static final ReadOptions WITH_RATE = new ReadOptions(OptionalDouble.of(8000));
    private static final Path FILE = scratch();

    private ReadersFuzz() {}

    private static Path scratch() {
        try {
            Path file = Files.createTempFile("steadyshaft-fuzz-", "");
            file.toFile().deleteOnExit();
            return file;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** One input. */
    public static void fuzzerTestOneInput(byte[] data) throws IOException {
        Files.write(FILE, data);
        recording(ReadOptions.NONE);
        recording(WITH_RATE);
        attempt(() -> RunSheet.looksLikeOne(FILE));
        attempt(() -> RunSheet.looksLikeResults(FILE));
        attempt(() -> RunSheet.read(FILE));
        attempt(() -> LimitsReader.read(FILE));
    }

    private static void recording(ReadOptions options) {
        attempt(() -> {
            SampleSource source = Recordings.open(FILE, "fuzzed", options);
            double[][] block = new double[source.channels()][BLOCK_SAMPLES];
            long samples = 0;
            try (BlockReader reader = source.open()) {
                int count = reader.read(block);
                while (count > 0 && samples < MOST_SAMPLES) {
                    samples += count;
                    count = reader.read(block);
                }
            }
            if (samples > source.samples() || source.samples() < 1 || !(source.sampleRateHz() > 0)) {
                throw new IllegalStateException(
                        samples + " samples of " + source.samples() + " at " + source.sampleRateHz() + " Hz");
            }
        });
    }

    /** Does something with the file. */
    @FunctionalInterface
    private interface Reading {
        void run() throws IOException;
    }

    private static void attempt(Reading reading) {
        try {
            reading.run();
        } catch (IOException e) {
            String message = String.valueOf(e.getMessage());
            if (message.isBlank() || message.contains("null") || message.contains("Exception")) {
                throw new IllegalStateException("no words: " + message, e);
            }
        }
    }
}
