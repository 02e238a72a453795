package org.steadyshaft.capture;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

/**
 * Small files kept with the tests, each with its exact samples in a text file: a line a sample, a column a channel, raw
 * numbers. Drawn by our own simulation or by formula, rounded to the bits, then coded by Debian's flac 1.4.2 (options such
 * as -0, -5, -8 -e, --lax, blocks of 100 to 1500 samples); the text was written from the samples, not from the coded file.
 */
enum FlacStored {
    TACHO_8("tacho-8-mono", 8000, 8, 1),
    TACHO_12("tacho-12-mono", 44_100, 12, 1),
    TACHO_16("tacho-16-mono", 48_000, 16, 1),
    TACHO_16_STEREO("tacho-16-stereo", 48_000, 16, 2),
    TACHO_20_STEREO("tacho-20-stereo", 44_100, 20, 2),
    TACHO_24("tacho-24-mono-192k", 192_000, 24, 1),
    TACHO_32_STEREO("tacho-32-stereo", 48_000, 32, 2),
    SIX_CHANNELS("six-channels", 44_100, 16, 6),
    ONE_LONG_BLOCK("one-long-block", 48_000, 16, 1),
    UNUSED_BITS("twelve-of-16-bits", 48_000, 16, 1),
    SHORT("short", 48_000, 16, 1),
    SILENCE("silence", 48_000, 16, 1),
    SQUARE("square-full-scale", 48_000, 16, 1),
    NOISE("noise-full-scale", 44_100, 16, 2);

    private static final String FOLDER = "/org/steadyshaft/flac/";

    private final String file;
    final int rateHz;
    final int bits;
    final int channels;

    FlacStored(String file, int rateHz, int bits, int channels) {
        this.file = file;
        this.rateHz = rateHz;
        this.bits = bits;
        this.channels = channels;
    }

    byte[] bytes() {
        try (InputStream in = open(".flac")) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What the file holds, channel by channel. */
    long[][] samples() {
        try (BufferedReader in = new BufferedReader(new InputStreamReader(open(".txt"), StandardCharsets.US_ASCII))) {
            List<long[]> rows = in.lines()
                    .map(line -> Stream.of(line.split(" "))
                            .mapToLong(Long::parseLong)
                            .toArray())
                    .toList();
            long[][] samples = new long[channels][];
            Arrays.setAll(samples, c -> rows.stream().mapToLong(row -> row[c]).toArray());
            return samples;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private InputStream open(String ending) {
        InputStream in = FlacStored.class.getResourceAsStream(FOLDER + file + ending);
        if (in == null) {
            throw new AssertionError("no resource " + FOLDER + file + ending);
        }
        return in;
    }
}
