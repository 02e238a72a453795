package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.file.WholeFiles;

/** Writes everything of one capture into its folder. */
public final class ReportWriter {
    private final Path out;

    /** @param out the output folder; made if it is missing */
    public ReportWriter(Path out) {
        this.out = out;
    }

    /**
     * Writes result.json and report.html, and for a turning shaft track.csv and events.csv. What was kept of the folder's capture for a
     * second run is taken away before anything else: it vouches for files that are replaced now.
     *
     * @param folder name of the capture's folder, from {@link CaptureNames}
     * @param outcome of the capture
     * @param verdict whether the motor holds its speed
     * @return the SHA-256 of every file written, by name
     * @throws IOException if a file cannot be written
     */
    public Map<String, String> write(String folder, Outcome outcome, MotorVerdict verdict) throws IOException {
        Path place = out.resolve(folder);
        Map<String, String> written = new TreeMap<>();
        WholeFiles.remove(place.resolve(ResultFiles.MEASURES));
        WholeFiles.remove(place.resolve(ResultFiles.FAULT));
        written.put(
                ResultFiles.RESULT,
                WholeFiles.write(place.resolve(ResultFiles.RESULT), w -> ResultJson.write(outcome, verdict, w)));
        Optional<Rotation> rotation =
                outcome instanceof Outcome.Analysed analysed ? analysed.rotation() : Optional.empty();
        if (rotation.isPresent()) {
            written.put(
                    ResultFiles.TRACK,
                    WholeFiles.write(
                            place.resolve(ResultFiles.TRACK),
                            w -> Tables.track(rotation.get().track(), w)));
            written.put(
                    ResultFiles.EVENTS,
                    WholeFiles.write(place.resolve(ResultFiles.EVENTS), w -> Tables.events(rotation.get(), w)));
        } else {
            WholeFiles.remove(place.resolve(ResultFiles.TRACK));
            WholeFiles.remove(place.resolve(ResultFiles.EVENTS));
        }
        CapturePage page = CapturePage.of(outcome, verdict);
        written.put(
                ResultFiles.PAGE,
                WholeFiles.write(
                        place.resolve(ResultFiles.PAGE), w -> Pages.write("capture.jte", Map.of("page", page), w)));
        return written;
    }
}
