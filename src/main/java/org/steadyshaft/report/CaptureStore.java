package org.steadyshaft.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.file.Digests;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.file.WholeFiles;

/**
 * Keeps what the batch needs of each capture in the file measures.json of its folder, with the digests of the results beside it that it
 * vouches for. It is written last, and {@link ReportWriter} takes it away before it touches any of them: so a run that is killed leaves
 * no measures of other results. What is damaged or forged, belongs to another folder, other content, settings or another build of the
 * program, or stands beside results that were changed, is as good as not there.
 */
public final class CaptureStore {
    /** How the file begins. */
    static final String MARK = "{\"sha256\":\"";

    private static final String CAPTURE = "\",\"capture\":";

    /** The measures of ten hours are a twentieth of it. */
    private static final long LARGEST_BYTES = 4_000_000;

    private final Path out;

    /** @param out the output folder */
    public CaptureStore(Path out) {
        this.out = out;
    }

    /** Whether anything was kept for a folder, of whatever content. */
    public boolean holds(String folder) {
        return Files.isRegularFile(out.resolve(folder).resolve(ResultFiles.MEASURES), LinkOption.NOFOLLOW_LINKS);
    }

    /** What was kept for a folder under this very key, if its results are all there and as they were written. */
    public Optional<StoredCapture> find(String folder, String key) {
        Path place = out.resolve(folder);
        Path measures = place.resolve(ResultFiles.MEASURES);
        try {
            if (!holds(folder) || Files.size(measures) > LARGEST_BYTES) {
                return Optional.empty();
            }
            Optional<String> kept = undamaged(Files.readString(measures));
            if (kept.isEmpty()) {
                return Optional.empty();
            }
            StoredCapture stored = StoredCaptureReader.read(kept.get());
            boolean same = stored.key().equals(key) && isOf(folder, stored) && areAsWritten(place, stored);
            return same ? Optional.of(stored) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private static boolean isOf(String folder, StoredCapture stored) {
        return stored.summary().folder().equals(folder)
                && (stored.run().isEmpty() || stored.run().get().name().equals(folder));
    }

    private static boolean areAsWritten(Path place, StoredCapture stored) throws IOException {
        boolean turned = stored.summary().figures().isPresent();
        if (stored.files().size() != (turned ? 4 : 2)) {
            return false;
        }
        for (Map.Entry<String, String> file : stored.files().entrySet()) {
            boolean known =
                    ResultFiles.ofACapture().stream().anyMatch(own -> own.name().equals(file.getKey()));
            Path result = place.resolve(file.getKey());
            if (!known
                    || !Files.isRegularFile(result, LinkOption.NOFOLLOW_LINKS)
                    || !InputFiles.sha256(result).equals(file.getValue())) {
                return false;
            }
        }
        return true;
    }

    /**
     * Keeps a capture.
     *
     * @throws IOException if it cannot be written
     */
    public void keep(String folder, StoredCapture stored) throws IOException {
        String text = StoredCaptureWriter.write(stored);
        WholeFiles.write(out.resolve(folder).resolve(ResultFiles.MEASURES), w -> w.write(wrapped(text)));
    }

    /** The file: a digest of the kept text, and the text. */
    private static String wrapped(String text) {
        return MARK + Digests.sha256(text) + CAPTURE + text + "}\n";
    }

    /** The kept text of a file, if not a character of it has changed. */
    private static Optional<String> undamaged(String file) {
        int from = file.indexOf(CAPTURE) + CAPTURE.length();
        int to = file.length() - 2;
        boolean parted = from > CAPTURE.length() && from < to;
        return Optional.of(parted ? file.substring(from, to) : "").filter(text -> file.equals(wrapped(text)));
    }
}
