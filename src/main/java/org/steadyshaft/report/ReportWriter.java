package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Files;
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
     * @param ways where its page leads
     * @return the SHA-256 of every file written, by name
     * @throws IOException if a file cannot be written
     */
    public Map<String, String> write(String folder, Outcome outcome, MotorVerdict verdict, Ways ways)
            throws IOException {
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
        CapturePage page = CapturePage.of(outcome, verdict, ways);
        written.put(
                ResultFiles.PAGE,
                WholeFiles.write(
                        place.resolve(ResultFiles.PAGE), w -> Pages.write("capture.jte", Map.of("page", page), w)));
        return written;
    }

    /**
     * Lets the page of a capture lead other ways, if it does not lead them yet.
     *
     * @param stored a capture of this output folder
     * @return the capture as it is kept now
     * @throws IOException if its page or its measures cannot be written
     */
    public StoredCapture renew(StoredCapture stored, Ways ways) throws IOException {
        String folder = stored.summary().folder();
        Path file = out.resolve(folder).resolve(ResultFiles.PAGE);
        if (!stored.files().containsKey(ResultFiles.PAGE)) {
            return stored;
        }
        String page = Files.readString(file);
        String renewed = ways.in(page);
        if (renewed.equals(page)) {
            return stored;
        }
        WholeFiles.remove(out.resolve(folder).resolve(ResultFiles.MEASURES));
        Map<String, String> files = new TreeMap<>(stored.files());
        files.put(ResultFiles.PAGE, WholeFiles.write(file, w -> w.write(renewed)));
        StoredCapture kept = new StoredCapture(stored.key(), files, stored.summary(), stored.run());
        if (!kept.key().isEmpty()) {
            new CaptureStore(out).keep(folder, kept);
        }
        return kept;
    }
}
