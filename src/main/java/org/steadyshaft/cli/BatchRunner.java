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
import org.steadyshaft.signal.SampleSource;

/**
 * Analyses captures in parallel and writes their results. Names and order are fixed before the work begins, so the number
 * of threads changes no byte. A capture that fails costs nothing but itself.
 */
final class BatchRunner {
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
     * @throws IOException if results cannot be written
     */
    List<CaptureSummary> run(List<CaptureJob> jobs, Runnable finished) throws IOException {
        CaptureNames names = new CaptureNames();
        ExecutorService pool = Executors.newFixedThreadPool(threads, BatchRunner::daemon);
        try {
            List<Future<CaptureSummary>> futures = new ArrayList<>();
            for (CaptureJob job : jobs) {
                String folder = names.nameFor(job.name());
                futures.add(pool.submit(() -> {
                    CaptureSummary summary = new ReportWriter(out).write(folder, analyse(job));
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
            if (e.getCause() instanceof IOException writing) {
                throw writing;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        }
    }

    private Outcome analyse(CaptureJob job) {
        if (job.problem().isPresent()) {
            return new Outcome.Rejected(job.name(), job.label(), job.problem().get());
        }
        try {
            SampleSource source = Recordings.open(job.file(), job.name(), readOptions);
            String digest = Recordings.sha256(job.file());
            return new CaptureAnalyser(job.settings()).analyse(source, digest, job.label());
        } catch (IOException e) {
            return new Outcome.Rejected(job.name(), job.label(), e.getMessage());
        } catch (RuntimeException e) {
            return new Outcome.Rejected(
                    job.name(), job.label(), job.name() + ": a fault in this program, not in the recording: " + e);
        }
    }
}
