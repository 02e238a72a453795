package org.steadyshaft.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;

/**
 * Keeps what the batch needs of each capture in the file measures.json of its folder. What is damaged, belongs to other content,
 * settings or another build of the program, or lacks its results, is as good as not there.
 */
public final class CaptureStore {
    private static final String FILE = "measures.json";
    private static final String CAPTURE = "\",\"capture\":";

    private final Path out;

    /** @param out the output folder */
    public CaptureStore(Path out) {
        this.out = out;
    }

    /** Whether anything was kept for a folder, of whatever content. */
    public boolean holds(String folder) {
        return Files.isRegularFile(out.resolve(folder).resolve(FILE));
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
            Optional<String> kept = undamaged(Files.readString(place.resolve(FILE)));
            if (kept.isEmpty()) {
                return Optional.empty();
            }
            StoredCapture stored = StoredCaptureReader.read(kept.get());
            boolean whole = stored.summary().figures().isEmpty()
                    || (Files.isRegularFile(place.resolve("track.csv"))
                            && Files.isRegularFile(place.resolve("events.csv")));
            return whole && stored.key().equals(key) ? Optional.of(stored) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /**
     * Keeps a capture.
     *
     * @throws IOException if it cannot be written
     */
    public void keep(String folder, StoredCapture stored) throws IOException {
        String text = StoredCaptureWriter.write(stored);
        WholeFiles.write(out.resolve(folder).resolve(FILE), w -> w.write(wrapped(text)));
    }

    /** The file: a digest of the kept text, and the text. */
    private static String wrapped(String text) {
        return "{\"sha256\":\"" + sha256(text) + CAPTURE + text + "}\n";
    }

    /** The kept text of a file, if not a character of it has changed. */
    private static Optional<String> undamaged(String file) {
        int from = file.indexOf(CAPTURE) + CAPTURE.length();
        int to = file.length() - 2;
        boolean parted = from > CAPTURE.length() && from < to;
        return Optional.of(parted ? file.substring(from, to) : "").filter(text -> file.equals(wrapped(text)));
    }

    private static String sha256(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
