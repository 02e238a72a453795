package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;

/** Writes everything of one capture into its folder. */
public final class ReportWriter {
    private final Path out;

    /** @param out the output folder; made if it is missing */
    public ReportWriter(Path out) {
        this.out = out;
    }

    /**
     * Writes result.json and report.html, and for a turning shaft track.csv and events.csv.
     *
     * @param folder name of the capture's folder, from {@link CaptureNames}
     * @return the figures for the batch's pages
     * @throws IOException if a file cannot be written
     */
    public CaptureSummary write(String folder, Outcome outcome) throws IOException {
        Path place = out.resolve(folder);
        WholeFiles.write(place.resolve("result.json"), w -> ResultJson.write(outcome, w));
        Optional<Rotation> rotation =
                outcome instanceof Outcome.Analysed analysed ? analysed.rotation() : Optional.empty();
        if (rotation.isPresent()) {
            WholeFiles.write(
                    place.resolve("track.csv"), w -> Tables.track(rotation.get().track(), w));
            WholeFiles.write(place.resolve("events.csv"), w -> Tables.events(rotation.get(), w));
        } else {
            WholeFiles.remove(place.resolve("track.csv"));
            WholeFiles.remove(place.resolve("events.csv"));
        }
        CapturePage page = CapturePage.of(outcome);
        WholeFiles.write(place.resolve("report.html"), w -> Pages.write("capture.jte", Map.of("page", page), w));
        return CaptureSummary.of(folder, outcome);
    }
}
