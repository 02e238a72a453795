package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.file.WholeFiles;

/** Writes what belongs to all captures of a batch. */
public final class BatchWriter {
    private final Path out;

    public BatchWriter(Path out) {
        this.out = out;
    }

    /**
     * Writes index.html and summary.csv, and with a comparison comparison.html, comparison.json and comparison.csv.
     *
     * @param captures in the order in which they are to be shown
     * @param comparison present with two circuits or more
     * @throws IOException if a file cannot be written
     */
    public void write(List<CaptureSummary> captures, Optional<Comparison> comparison) throws IOException {
        WholeFiles.write(out.resolve(ResultFiles.SUMMARY), w -> Tables.summary(captures, w));
        if (comparison.isPresent()) {
            ComparisonPage page = ComparisonPage.of(comparison.get());
            WholeFiles.write(out.resolve(ResultFiles.COMPARISON_JSON), w -> ComparisonJson.write(comparison.get(), w));
            WholeFiles.write(out.resolve(ResultFiles.COMPARISON_CSV), w -> ComparisonCsv.write(comparison.get(), w));
            WholeFiles.write(
                    out.resolve(ResultFiles.COMPARISON_PAGE),
                    w -> Pages.write("comparison.jte", Map.of("page", page), w));
        } else {
            for (String name :
                    List.of(ResultFiles.COMPARISON_JSON, ResultFiles.COMPARISON_CSV, ResultFiles.COMPARISON_PAGE)) {
                WholeFiles.remove(out.resolve(name));
            }
        }
        WholeFiles.write(
                out.resolve(ResultFiles.INDEX),
                w -> Pages.write("index.jte", Map.of("captures", captures, "compared", comparison.isPresent()), w));
    }
}
