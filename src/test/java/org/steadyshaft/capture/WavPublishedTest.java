package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * Whole small files as bytes, wav_examples.json, read back to their samples.
 *
 * <p>Sources: IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0 (1991); Microsoft, Multiple
 * channel audio data and WAVE files (2001); EBU Tech 3306 (2007, 2009). The layouts were read (the pad rule is from memory);
 * the files are constructed from them, opened with two general readers, RF64 only with a parser of their maker.
 *
 * <p>Tolerance: none. Integer samples over a power of two are exact in doubles.
 */
class WavPublishedTest {
    private static final String AIFF = "aiff_pcm16_mono";
    private static final String RF64 = "rf64_mono";

    @TempDir
    Path folder;

    static List<String> wavNames() {
        List<String> names = new ArrayList<>();
        for (JsonNode example : PublishedTable.json("wav_examples.json").get("examples")) {
            names.add(example.get("id").asText());
        }
        assertEquals(8, names.size(), "examples to read");
        return names;
    }

    @ParameterizedTest
    @MethodSource("wavNames")
    void samplesAreExact(String id) throws IOException {
        JsonNode example = example(id);
        SampleSource source = open(example);
        int channels = example.get("channels").asInt();
        assertEquals(example.get("sample_rate").asDouble(), source.sampleRateHz(), "sample rate");
        assertEquals(channels, source.channels(), "channels");
        assertEquals(example.get("normalised").size() / channels, source.samples(), "samples in a channel");
        assertEquals(List.of(), source.remarks(), "there is nothing odd in the file");
        for (int blockSamples : new int[] {1, 2, 3, 64}) {
            double[] read = interleaved(source, blockSamples);
            assertArrayEquals(doubles(example.get("normalised")), read, "blocks of " + blockSamples);
            assertArrayEquals(doubles(example.get("frames_interleaved_raw")), raw(read, example), "raw");
        }
    }

    @Test
    void rf64TakesItsLengthFromTheWideChunk() throws IOException {
        SampleSource source = open(example(RF64));
        assertEquals("WAV RF64", source.format().container());
        assertEquals(4, source.samples());
    }

    /** With bytes behind the samples only the wide chunk tells where they end. */
    @Test
    void rf64StopsAtTheEndOfTheDataChunk() throws IOException {
        Path file = folder.resolve("tail.wav");
        Files.write(file, HexFormat.of().parseHex(example(RF64).get("hex").asText() + "4c49535402000000ffff"));
        SampleSource source = Recordings.open(file, "tail.wav", ReadOptions.NONE);
        assertEquals(4, source.samples());
        assertArrayEquals(doubles(example(RF64).get("normalised")), interleaved(source, 64));
    }

    @Test
    void stepIsThatOfTheValidBits() throws IOException {
        assertEquals(
                OptionalDouble.of(1 / 8388608.0),
                open(example("extensible_24_in_32")).format().step());
        assertEquals(
                OptionalDouble.of(1 / 128.0),
                open(example("pcm8_odd_length")).format().step());
        assertEquals(
                OptionalDouble.empty(),
                open(example("float32_mono_fmt18_fact")).format().step());
    }

    @Test
    void aiffIsToldByItsForm() throws IOException {
        assertEquals("AIFF", open(example(AIFF)).format().container());
    }

    /** Every sample is needed: a file cut by one byte is no longer the example. */
    @ParameterizedTest
    @ValueSource(strings = {"pcm16_stereo", "pcm24_mono", "list_before_data", RF64})
    void cutFileIsShorterAndRemarked(String id) throws IOException {
        JsonNode example = example(id);
        byte[] whole = HexFormat.of().parseHex(example.get("hex").asText());
        Path file = folder.resolve("cut.wav");
        // two bytes: the first may only be the pad byte
        Files.write(file, Arrays.copyOf(whole, whole.length - 2));
        SampleSource source = Recordings.open(file, "cut.wav", ReadOptions.NONE);
        int channels = source.channels();
        assertEquals(example.get("normalised").size() / channels - 1, source.samples());
        assertEquals(1, source.remarks().size(), source.remarks().toString());
    }

    private SampleSource open(JsonNode example) throws IOException {
        byte[] bytes = HexFormat.of().parseHex(example.get("hex").asText());
        assertEquals(example.get("bytes").asInt(), bytes.length, "bytes of the example");
        Path file = folder.resolve(example.get("id").asText());
        Files.write(file, bytes);
        return Recordings.open(file, example.get("id").asText(), ReadOptions.NONE);
    }

    private static JsonNode example(String id) {
        for (JsonNode example : PublishedTable.json("wav_examples.json").get("examples")) {
            if (example.get("id").asText().equals(id)) {
                return example;
            }
        }
        throw new AssertionError("no example " + id);
    }

    private static double[] interleaved(SampleSource source, int blockSamples) throws IOException {
        double[] all = new double[(int) source.samples() * source.channels()];
        int at = 0;
        double[][] block = new double[source.channels()][blockSamples];
        try (BlockReader reader = source.open()) {
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                for (int i = 0; i < count; i++) {
                    for (double[] channel : block) {
                        all[at++] = channel[i];
                    }
                }
            }
            assertEquals(0, reader.read(block), "the end stays the end");
        }
        assertEquals(all.length, at, "samples read");
        return all;
    }

    /** Back to the numbers in the file: full scale is half the range of the container; 8 bits count from 128. */
    private static double[] raw(double[] normalised, JsonNode example) {
        int bits = example.get("container_bits").asInt();
        boolean isFloat = example.get("id").asText().startsWith("float");
        double[] raw = new double[normalised.length];
        for (int i = 0; i < raw.length; i++) {
            double whole = normalised[i] * Math.scalb(1.0, bits - 1) + (bits == 8 ? 128 : 0);
            raw[i] = isFloat ? normalised[i] : whole;
        }
        return raw;
    }

    private static double[] doubles(JsonNode array) {
        double[] values = new double[array.size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = array.get(i).asDouble();
        }
        return values;
    }
}
