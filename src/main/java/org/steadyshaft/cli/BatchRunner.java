package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import org.steadyshaft.analysis.CaptureAnalyser;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.compare.RunMeter;
import org.steadyshaft.report.CaptureNames;
import org.steadyshaft.report.CaptureStore;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.ReportWriter;
import org.steadyshaft.report.StoredCapture;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.signal.SampleSource;

/**
 * Analyses captures in parallel and writes their results. Names and order are fixed before the work begins, so the number
 * of threads changes no byte. A capture that fails costs nothing but itself.
 */
final class BatchRunner {
    private static final String FAULT = "a fault in this program, not in the recording: ";

    private final Path out;
    private final ReadOptions readOptions;
    private final int threads;
    private final boolean fresh;
    private final CaptureStore store;

    /** @param fresh whether to analyse also what was analysed before */
    BatchRunner(Path out, ReadOptions readOptions, int threads, boolean fresh) {
        this.fresh = fresh;
        this.store = new CaptureStore(out);
        this.out = out;
        this.readOptions = readOptions;
        this.threads = threads;
    }

    /**
     * Runs all jobs.
     *
     * @param finished called after each, from any thread
     * @return a summary for each job, in their order
     * @throws IOException if the run is interrupted
     */
    List<StoredCapture> run(List<CaptureJob> jobs, Runnable finished) throws IOException {
        CaptureNames names = new CaptureNames(foldersWithInputs(jobs));
        ExecutorService pool = Executors.newFixedThreadPool(threads, BatchRunner::daemon);
        try {
            List<Future<StoredCapture>> futures = new ArrayList<>();
            for (CaptureJob job : jobs) {
                String folder = names.nameFor(job.name());
                futures.add(pool.submit(() -> {
                    StoredCapture stored = analyseAndWrite(job, folder);
                    finished.run();
                    return stored;
                }));
            }
            List<StoredCapture> summaries = new ArrayList<>();
            for (Future<StoredCapture> future : futures) {
                summaries.add(get(future));
            }
            return summaries;
        } finally {
            pool.shutdownNow();
        }
    }

    private static Thread daemon(Runnable task) {
        Thread thread = new Thread(task, "capture");
        thread.setDaemon(true);
        return thread;
    }

    private static StoredCapture get(Future<StoredCapture> future) throws IOException {
        try {
            return future.get();
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        }
    }

    /** Folders below the output folder in which inputs lie: results there could overwrite them. */
    private List<String> foldersWithInputs(List<CaptureJob> jobs) {
        Path place = out.toAbsolutePath().normalize();
        return jobs.stream()
                .map(job -> job.file().toAbsolutePath().normalize())
                .filter(file -> file.startsWith(place) && file.getNameCount() > place.getNameCount() + 1)
                .map(file -> file.getName(place.getNameCount()).toString())
                .distinct()
                .toList();
    }

    /** Whatever goes wrong with a capture is told of that capture, and costs no other. */
    private StoredCapture analyseAndWrite(CaptureJob job, String folder) {
        CompletableFuture<String> digest = digest(job);
        if (!fresh && store.holds(folder)) {
            String known = digest.join();
            Optional<StoredCapture> stored =
                    known.isEmpty() ? Optional.empty() : store.find(folder, key(job, folder, known));
            if (stored.isPresent()) {
                return stored.get();
            }
        }
        Outcome outcome = analyse(job, digest);
        String key = digest.join().isEmpty() ? "" : key(job, folder, digest.join());
        try {
            return write(folder, key, outcome);
        } catch (IOException e) {
            return unwritten(folder, rejected(job, "its results cannot be written: " + Reasons.of(e)));
        } catch (RuntimeException | OutOfMemoryError e) {
            Outcome fault = rejected(job, FAULT + e);
            try {
                return write(folder, "", fault);
            } catch (IOException again) {
                return unwritten(folder, fault);
            }
        }
    }

    private StoredCapture write(String folder, String key, Outcome outcome) throws IOException {
        CaptureSummary summary = new ReportWriter(out).write(folder, outcome);
        StoredCapture stored = new StoredCapture(key, summary, new RunMeter().measure(folder, outcome));
        store.keep(folder, stored);
        return stored;
    }

    private static StoredCapture unwritten(String folder, Outcome outcome) {
        return new StoredCapture("", CaptureSummary.of(folder, outcome), Optional.empty());
    }

    /** Everything that the results depend on; each part with its length, so that no words can move from one to the next. */
    private String key(CaptureJob job, String folder, String digest) {
        CaptureLabel label = job.label();
        List<String> parts = new ArrayList<>(List.of(
                digest,
                label.circuit(),
                label.setting(),
                label.load(),
                label.note(),
                job.name(),
                folder,
                Build.stamp()));
        parts.add(job.settings().toString());
        parts.add(readOptions.toString());
        label.others().forEach((column, cell) -> parts.addAll(List.of(column, cell)));
        return parts.stream().map(part -> part.length() + ":" + part).collect(Collectors.joining("|"));
    }

    private static Outcome rejected(CaptureJob job, String reason) {
        return new Outcome.Rejected(job.name(), job.label(), PlainText.of(job.name() + ": " + reason));
    }

    /** The digest of a file, made beside the analysis; empty where it cannot be read: the analysis meets the same fault and tells it. */
    private static CompletableFuture<String> digest(CaptureJob job) {
        if (job.problem().isPresent()) {
            return CompletableFuture.completedFuture("");
        }
        return CompletableFuture.supplyAsync(() -> {
            try {
                return Recordings.sha256(job.file());
            } catch (IOException e) {
                return "";
            }
        });
    }

    private Outcome analyse(CaptureJob job, CompletableFuture<String> digest) {
        if (job.problem().isPresent()) {
            return new Outcome.Rejected(
                    job.name(), job.label(), PlainText.of(job.problem().get()));
        }
        try {
            SampleSource source = Recordings.open(job.file(), job.name(), readOptions);
            return new CaptureAnalyser(job.settings()).analyse(source, digest::join, job.label());
        } catch (IOException e) {
            return new Outcome.Rejected(job.name(), job.label(), PlainText.of(String.valueOf(e.getMessage())));
        } catch (RuntimeException | OutOfMemoryError e) {
            return rejected(job, FAULT + e);
        }
    }
}
