package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.steadyshaft.analysis.CaptureAnalyser;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.report.CaptureNames;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.ReportWriter;
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

    BatchRunner(Path out, ReadOptions readOptions, int threads) {
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
    List<CaptureSummary> run(List<CaptureJob> jobs, Runnable finished) throws IOException {
        CaptureNames names = new CaptureNames(foldersWithInputs(jobs));
        ExecutorService pool = Executors.newFixedThreadPool(threads, BatchRunner::daemon);
        try {
            List<Future<CaptureSummary>> futures = new ArrayList<>();
            for (CaptureJob job : jobs) {
                String folder = names.nameFor(job.name());
                futures.add(pool.submit(() -> {
                    CaptureSummary summary = analyseAndWrite(job, folder);
                    finished.run();
                    return summary;
                }));
            }
            List<CaptureSummary> summaries = new ArrayList<>();
            for (Future<CaptureSummary> future : futures) {
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

    private static CaptureSummary get(Future<CaptureSummary> future) throws IOException {
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
    private CaptureSummary analyseAndWrite(CaptureJob job, String folder) {
        ReportWriter writer = new ReportWriter(out);
        Outcome outcome = analyse(job);
        try {
            return writer.write(folder, outcome);
        } catch (IOException e) {
            return CaptureSummary.of(folder, rejected(job, "its results cannot be written: " + Reasons.of(e)));
        } catch (RuntimeException | OutOfMemoryError e) {
            Outcome fault = rejected(job, FAULT + e);
            try {
                return writer.write(folder, fault);
            } catch (IOException again) {
                return CaptureSummary.of(folder, fault);
            }
        }
    }

    private static Outcome rejected(CaptureJob job, String reason) {
        return new Outcome.Rejected(job.name(), job.label(), PlainText.of(job.name() + ": " + reason));
    }

    private Outcome analyse(CaptureJob job) {
        if (job.problem().isPresent()) {
            return new Outcome.Rejected(
                    job.name(), job.label(), PlainText.of(job.problem().get()));
        }
        try {
            SampleSource source = Recordings.open(job.file(), job.name(), readOptions);
            String digest = Recordings.sha256(job.file());
            return new CaptureAnalyser(job.settings()).analyse(source, digest, job.label());
        } catch (IOException e) {
            return new Outcome.Rejected(job.name(), job.label(), PlainText.of(String.valueOf(e.getMessage())));
        } catch (RuntimeException | OutOfMemoryError e) {
            return rejected(job, FAULT + e);
        }
    }
}
