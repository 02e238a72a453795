package org.steadyshaft.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;

/**
 * The three streams that RFC 9639 works through in appendix D, flac_rfc9639_examples.json, read back to their samples.
 *
 * <p>Tolerance: none. Integer samples over a power of two are exact in doubles. That there is no remark says that the MD5
 * in the header is that of the samples.
 */
class FlacPublishedTest {
    @TempDir
    private Path folder;

    static List<JsonNode> examples() {
        List<JsonNode> examples = new ArrayList<>();
        PublishedTable.json("flac_rfc9639_examples.json").get("examples").forEach(examples::add);
        assertEquals(3, examples.size(), "examples to read");
        return examples;
    }

    @ParameterizedTest
    @MethodSource("examples")
    void samples_are_exact(JsonNode example) throws IOException {
        byte[] bytes = HexFormat.of().parseHex(example.get("hex").asText());
        assertEquals(example.get("bytes").asInt(), bytes.length, "bytes of the example");
        FlacSource source = FlacBytes.source(folder, bytes);
        int bits = example.get("bits").asInt();
        assertEquals(example.get("sample_rate").asDouble(), source.sampleRateHz(), "sample rate");
        assertEquals(example.get("channels").asInt(), source.channels(), "channels");
        assertEquals(example.get("total_samples").asLong(), source.samples(), "samples in a channel");
        assertEquals("FLAC " + bits + " bit", source.format().encoding());
        assertEquals(List.of(), source.remarks(), "there is nothing odd in the stream");
        for (int blockSamples : new int[] {1, 2, 7, 64}) {
            double[][] read = ReadBack.all(source, blockSamples);
            for (int c = 0; c < read.length; c++) {
                assertArrayEquals(
                        scaled(example.get("samples").get(c), bits), read[c], "channel " + c + " by " + blockSamples);
            }
        }
    }

    private static double[] scaled(JsonNode channel, int bits) {
        double[] values = new double[channel.size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = channel.get(i).asInt() / Math.scalb(1.0, bits - 1);
        }
        return values;
    }
}
