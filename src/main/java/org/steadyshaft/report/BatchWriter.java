package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Writes what belongs to all captures of a batch. */
public final class BatchWriter {
    private final Path out;

    public BatchWriter(Path out) {
        this.out = out;
    }

    /**
     * Writes index.html and summary.csv.
     *
     * @param captures in the order in which they are to be shown
     * @throws IOException if a file cannot be written
     */
    public void write(List<CaptureSummary> captures) throws IOException {
        WholeFiles.write(out.resolve("summary.csv"), w -> Tables.summary(captures, w));
        WholeFiles.write(out.resolve("index.html"), w -> Pages.write("index.jte", Map.of("captures", captures), w));
    }
}
