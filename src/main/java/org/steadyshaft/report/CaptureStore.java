package org.steadyshaft.report;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.PropertyAccessor;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Keeps what the batch needs of each capture in the file measures.json of its folder. What cannot be read, belongs to other content,
 * settings or another build of the program, or lacks its results, is as good as not there.
 */
public final class CaptureStore {
    private static final String FILE = "measures.json";

    private static final ObjectMapper MAPPER = JsonMapper.builder()
            .addModule(new Jdk8Module())
            .visibility(PropertyAccessor.GETTER, JsonAutoDetect.Visibility.NONE)
            .visibility(PropertyAccessor.IS_GETTER, JsonAutoDetect.Visibility.NONE)
            .visibility(PropertyAccessor.FIELD, JsonAutoDetect.Visibility.ANY)
            .build();

    private final Path out;

    /** @param out the output folder */
    public CaptureStore(Path out) {
        this.out = out;
    }

    /** What was kept for a folder under this very key, if its results are all there. */
    public Optional<StoredCapture> find(String folder, String key) {
        Path place = out.resolve(folder);
        boolean complete = Files.isRegularFile(place.resolve("result.json"))
                && Files.isRegularFile(place.resolve("report.html"))
                && Files.isRegularFile(place.resolve(FILE));
        if (!complete) {
            return Optional.empty();
        }
        try {
            StoredCapture stored = MAPPER.readValue(place.resolve(FILE).toFile(), StoredCapture.class);
            boolean whole = stored.summary().figures().isEmpty()
                    || (Files.isRegularFile(place.resolve("track.csv"))
                            && Files.isRegularFile(place.resolve("events.csv")));
            return whole && stored.key().equals(key) ? Optional.of(stored) : Optional.empty();
        } catch (IOException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /**
     * Keeps a capture.
     *
     * @throws IOException if it cannot be written
     */
    public void keep(String folder, StoredCapture stored) throws IOException {
        String text;
        try {
            text = MAPPER.writeValueAsString(stored);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a record that cannot be written", e);
        }
        WholeFiles.write(out.resolve(folder).resolve(FILE), w -> w.write(text));
    }
}
