package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
     * Runs all jobs. Captures of one tacho that cannot tell a line of the mains from its poles are analysed once more when the others are
     * done, with what those have learnt.
     *
     * @param finished called after each, from any thread
     * @return a summary for each job, in their order
     * @throws IOException if the run is interrupted
     */
    List<StoredCapture> run(List<CaptureJob> jobs, Runnable finished) throws IOException {
        CaptureNames names = new CaptureNames(foldersWithInputs(jobs));
        TachoGroups groups = new TachoGroups(jobs);
        List<CaptureWork> works = new ArrayList<>();
        for (CaptureJob job : jobs) {
            works.add(new CaptureWork(job, names.nameFor(job.name())));
        }
        works.forEach(work -> work.joinGroup(groups.of(work.job()), works));
        askTheStoreForWholeGroups(works);
        ExecutorService pool = Executors.newFixedThreadPool(threads, BatchRunner::daemon);
        try {
            boolean again = true;
            for (int pass = 0; pass < 2 && again; pass++) {
                List<Future<?>> futures = new ArrayList<>();
                for (CaptureWork work : works) {
                    if (work.stored().isEmpty()) {
                        futures.add(pool.submit(() -> analyseAndWrite(work, finished)));
                    }
                }
                for (Future<?> future : futures) {
                    get(future);
                }
                works.forEach(CaptureWork::learnFromGroup);
                again = works.stream().anyMatch(work -> work.stored().isEmpty());
            }
            return works.stream().map(work -> work.stored().orElseThrow()).toList();
        } finally {
            pool.shutdownNow();
        }
    }

    /** Captures of one tacho help one another: what was kept is of use only if all of them were. */
    private void askTheStoreForWholeGroups(List<CaptureWork> works) {
        for (CaptureWork work : works) {
            boolean isFirst = !work.group().isEmpty() && work.group().get(0) == work;
            if (isFirst && !fresh) {
                work.group().forEach(CaptureWork::beginDigest);
                boolean all =
                        work.group().stream().allMatch(member -> kept(member).isPresent());
                if (!all) {
                    work.group().forEach(CaptureWork::forgetStored);
                }
            }
        }
    }

    private Optional<StoredCapture> kept(CaptureWork work) {
        return store.holds(work.folder()) && work.isReadable()
                ? store.find(work.folder(), key(work))
                : Optional.empty();
    }

    private static Thread daemon(Runnable task) {
        Thread thread = new Thread(task, "capture");
        thread.setDaemon(true);
        return thread;
    }

    private static void get(Future<?> future) throws IOException {
        try {
            future.get();
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
    private void analyseAndWrite(CaptureWork work, Runnable finished) {
        work.beginDigest();
        if (!fresh && work.asksTheStore()) {
            Optional<StoredCapture> stored = kept(work);
            if (stored.isPresent()) {
                work.done(stored.get());
                finished.run();
                return;
            }
        }
        Outcome outcome = analyse(work);
        if (work.waitsForGroup(outcome)) {
            return;
        }
        String key = work.isReadable() ? key(work) : "";
        work.done(written(work, key, outcome));
        finished.run();
    }

    private StoredCapture written(CaptureWork work, String key, Outcome outcome) {
        try {
            return write(work.folder(), key, outcome);
        } catch (IOException e) {
            return unwritten(work.folder(), rejected(work.job(), "its results cannot be written: " + Reasons.of(e)));
        } catch (RuntimeException | OutOfMemoryError e) {
            Outcome fault = rejected(work.job(), FAULT + e);
            try {
                return write(work.folder(), "", fault);
            } catch (IOException again) {
                return unwritten(work.folder(), fault);
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
    private String key(CaptureWork work) {
        CaptureJob job = work.job();
        CaptureLabel label = job.label();
        List<String> parts = new ArrayList<>(List.of(
                work.digest(),
                label.circuit(),
                label.setting(),
                label.load(),
                label.note(),
                job.name(),
                work.folder(),
                Build.stamp()));
        parts.add(job.settings().toString());
        parts.add(readOptions.toString());
        label.others().forEach((column, cell) -> parts.addAll(List.of(column, cell)));
        for (CaptureWork other : work.group()) {
            parts.addAll(List.of(other.digest(), other.job().settings().toString()));
        }
        return parts.stream().map(part -> part.length() + ":" + part).collect(Collectors.joining("|"));
    }

    private static Outcome rejected(CaptureJob job, String reason) {
        return new Outcome.Rejected(job.name(), job.label(), PlainText.of(job.name() + ": " + reason));
    }

    private Outcome analyse(CaptureWork work) {
        CaptureJob job = work.job();
        if (job.problem().isPresent()) {
            return new Outcome.Rejected(
                    job.name(), job.label(), PlainText.of(job.problem().get()));
        }
        try {
            SampleSource source = Recordings.open(job.file(), job.name(), readOptions);
            return new CaptureAnalyser(job.settings(), work.learnt()).analyse(source, work::digest, job.label());
        } catch (IOException e) {
            return new Outcome.Rejected(job.name(), job.label(), PlainText.of(String.valueOf(e.getMessage())));
        } catch (RuntimeException | OutOfMemoryError e) {
            return rejected(job, FAULT + e);
        }
    }
}
