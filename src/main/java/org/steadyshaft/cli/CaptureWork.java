package org.steadyshaft.cli;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.report.StoredCapture;
import org.steadyshaft.report.Ways;
import org.steadyshaft.voltage.LearntTurn;

/** A capture on its way through a batch. Each is worked on by one thread at a time; what others read of it is set between passes. */
final class CaptureWork {
    private final CaptureJob job;
    private final String folder;
    private List<CaptureWork> group = List.of();
    private CompletableFuture<String> digest;
    private Ways ways = new Ways("", "", false);
    private Optional<StoredCapture> stored = Optional.empty();
    private Optional<LearntTurn> own = Optional.empty();
    private List<LearntTurn> learnt = List.of();
    private boolean waited;
    private boolean asksTheStore = true;

    /** @param folder name of the folder for its results */
    CaptureWork(CaptureJob job, String folder) {
        this.job = job;
        this.folder = folder;
    }

    CaptureJob job() {
        return job;
    }

    String folder() {
        return folder;
    }

    /** Says where its page leads. */
    void lead(Ways to) {
        ways = to;
    }

    Ways ways() {
        return ways;
    }

    /** Says which captures are of the same tacho, itself among them. */
    void joinGroup(List<CaptureJob> jobs, List<CaptureWork> all) {
        group = jobs.stream()
                .map(j -> all.stream().filter(w -> w.job == j).findFirst().orElseThrow())
                .toList();
    }

    /** The captures of the same tacho, itself among them; empty if it stands alone. */
    List<CaptureWork> group() {
        return group;
    }

    /** Digest of the file, made in the background and once; empty where it cannot be read: the analysis meets the same fault and tells it. */
    String digest() {
        return making().join();
    }

    private synchronized CompletableFuture<String> making() {
        if (digest == null) {
            digest = job.problem().isPresent()
                    ? CompletableFuture.completedFuture("")
                    : CompletableFuture.supplyAsync(this::sha256);
        }
        return digest;
    }

    private String sha256() {
        try {
            return InputFiles.sha256(job.file());
        } catch (IOException e) {
            return "";
        }
    }

    /** Begins to make the digest, so that it is there when it is asked for. */
    void beginDigest() {
        making();
    }

    boolean isReadable() {
        return !digest().isEmpty();
    }

    /** Says that what was kept of it is of no use. */
    void forgetStored() {
        asksTheStore = false;
    }

    boolean asksTheStore() {
        return asksTheStore && !waited;
    }

    /**
     * Takes what others may learn from an analysis; whether its results should wait until the others are done, since they may tell what it
     * cannot.
     */
    boolean waitsForGroup(Outcome outcome) {
        Optional<Rotation> rotation =
                outcome instanceof Outcome.Analysed analysed ? analysed.rotation() : Optional.empty();
        own = group.size() > 1 ? rotation.flatMap(Rotation::learnt) : Optional.empty();
        boolean waits = !waited
                && group.size() > 1
                && rotation.filter(Rotation::isHiddenByTheShaft).isPresent();
        waited |= waits;
        return waits;
    }

    /** Takes over what the other captures of the tacho have learnt. */
    void learnFromGroup() {
        learnt = group.stream()
                .filter(w -> w != this)
                .flatMap(w -> w.own.stream())
                .toList();
    }

    /** What the others have learnt of the tacho. */
    List<LearntTurn> learnt() {
        return learnt;
    }

    void done(StoredCapture result) {
        stored = Optional.of(result);
    }

    /** What came of it; empty until it is done. */
    Optional<StoredCapture> stored() {
        return stored;
    }
}
