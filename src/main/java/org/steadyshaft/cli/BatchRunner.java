package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.steadyshaft.analysis.CaptureAnalyser;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.capture.CaptureException;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.compare.Needs;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.RunMeter;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.report.CaptureNames;
import org.steadyshaft.report.CaptureStore;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.report.MotorVerdict;
import org.steadyshaft.report.ReportWriter;
import org.steadyshaft.report.ResultFiles;
import org.steadyshaft.report.StoredCapture;
import org.steadyshaft.report.Ways;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.signal.SampleSource;

/**
 * Analyses captures in parallel and writes their results. Names and order are fixed before the work begins, so the number
 * of threads changes no byte. A capture that fails costs nothing but itself.
 */
final class BatchRunner {
    /** Larger recordings that cannot be read at all are looked at again in a second run, rather than read whole for their digest. */
    private static final long MOST_REJECTED_BYTES = 256L << 20;

    private final Path out;
    private final OutputFolder folder;
    private final ReadOptions readOptions;
    private final int threads;
    private final boolean fresh;
    private final CaptureStore store;
    private final Needs needs;

    /**
     * @param folder claimed for the results
     * @param needs what captures are held against
     * @param fresh whether to analyse also what was analysed before
     */
    BatchRunner(OutputFolder folder, ReadOptions readOptions, Needs needs, int threads, boolean fresh) {
        this.needs = needs;
        this.fresh = fresh;
        this.folder = folder;
        this.out = folder.path();
        this.store = new CaptureStore(out);
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
        Set<String> withInputs = foldersWithInputs(jobs);
        CaptureNames names =
                new CaptureNames(name -> !withInputs.contains(name) && folder.isFree(name, ResultFiles.ofACapture()));
        TachoGroups groups = new TachoGroups(jobs);
        List<CaptureWork> works = new ArrayList<>();
        for (CaptureJob job : jobs) {
            works.add(new CaptureWork(job, names.nameFor(job.name())));
        }
        works.forEach(work -> work.joinGroup(groups.of(work.job()), works));
        List<Ways> ways = Ways.of(works.stream().map(CaptureWork::folder).toList(), isLikelyCompared(jobs));
        for (int i = 0; i < works.size(); i++) {
            works.get(i).lead(ways.get(i));
        }
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

    /** Whether circuits will be compared, as far as the run sheet tells; what comes otherwise is mended at the end. */
    private static boolean isLikelyCompared(List<CaptureJob> jobs) {
        return jobs.stream().map(job -> job.label().circuit()).distinct().count() > 1;
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

    /** Folders below the output folder in which inputs lie, links followed: results there could overwrite them. */
    private Set<String> foldersWithInputs(List<CaptureJob> jobs) throws IOException {
        Set<String> names = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        Path place = out.toRealPath();
        for (CaptureJob job : jobs) {
            Path file = real(job.file());
            if (file.startsWith(place) && file.getNameCount() > place.getNameCount() + 1) {
                names.add(file.getName(place.getNameCount()).toString());
            }
        }
        return names;
    }

    private static Path real(Path file) {
        try {
            return file.toRealPath();
        } catch (IOException e) {
            return file.toAbsolutePath().normalize();
        }
    }

    /** Whatever goes wrong with a capture is told of that capture, and costs no other. */
    private void analyseAndWrite(CaptureWork work, Runnable finished) {
        try {
            work.beginDigest();
            Optional<StoredCapture> stored = !fresh && work.asksTheStore() ? kept(work) : Optional.empty();
            if (stored.isPresent()) {
                work.done(stored.get());
                finished.run();
                return;
            }
            FileState before = FileState.of(work.job().file());
            Outcome outcome = analyse(work);
            if (work.waitsForGroup(outcome)) {
                return;
            }
            String key = isWorthKeeping(work, outcome) && work.isReadable() ? key(work) : "";
            boolean changed = !before.equals(FileState.of(work.job().file()));
            work.done(written(work, changed ? "" : key, changed ? changed(work.job()) : outcome));
        } catch (IOException e) {
            work.done(written(work, "", unread(work.job(), e)));
        } catch (RuntimeException | Error e) {
            work.done(faulty(work, e));
        }
        finished.run();
    }

    private static boolean isWorthKeeping(CaptureWork work, Outcome outcome) throws IOException {
        Path file = work.job().file();
        return outcome instanceof Outcome.Analysed
                || !Files.isRegularFile(file)
                || Files.size(file) <= MOST_REJECTED_BYTES;
    }

    private static Outcome changed(CaptureJob job) {
        return rejected(job, "changed while it was read; expected a recording that is complete (analyse it once more)");
    }

    private StoredCapture written(CaptureWork work, String key, Outcome outcome) {
        try {
            return write(work, key, outcome);
        } catch (IOException e) {
            return unwritten(work.folder(), rejected(work.job(), "its results cannot be written: " + Reasons.of(e)));
        }
    }

    /** The page of a capture that met a fault of the program says so, and the trace is kept beside it. */
    private StoredCapture faulty(CaptureWork work, Throwable fault) {
        Outcome told = rejected(work.job(), Faults.words(fault));
        try {
            if (Faults.isMemory(fault)) {
                return write(work, "", told);
            }
            Outcome kept = rejected(
                    work.job(),
                    Faults.words(fault) + "; its trace is in " + work.folder() + "/" + ResultFiles.FAULT
                            + " of the results");
            StoredCapture stored = write(work, "", kept);
            Faults.keep(out.resolve(work.folder()).resolve(ResultFiles.FAULT), fault);
            return stored;
        } catch (IOException | RuntimeException | Error e) {
            return unwritten(work.folder(), told);
        }
    }

    private StoredCapture write(CaptureWork work, String key, Outcome outcome) throws IOException {
        String name = work.folder();
        Optional<Run> run = new RunMeter().measure(name, outcome);
        MotorVerdict verdict = MotorVerdict.of(outcome, run, needs);
        Map<String, String> files = new ReportWriter(out).write(name, outcome, verdict, work.ways());
        StoredCapture stored = new StoredCapture(key, files, CaptureSummary.of(name, outcome, verdict), run);
        if (!key.isEmpty()) {
            store.keep(name, stored);
        }
        return stored;
    }

    private StoredCapture unwritten(String name, Outcome outcome) {
        MotorVerdict verdict = MotorVerdict.of(outcome, Optional.empty(), needs);
        return new StoredCapture("", Map.of(), CaptureSummary.of(name, outcome, verdict), Optional.empty());
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
        parts.add(needs.toString());
        label.others().forEach((column, cell) -> parts.addAll(List.of(column, cell)));
        for (CaptureWork other : work.group()) {
            parts.addAll(List.of(other.digest(), other.job().settings().toString()));
        }
        return parts.stream().map(part -> part.length() + ":" + part).collect(Collectors.joining("|"));
    }

    private static Outcome rejected(CaptureJob job, String reason) {
        return new Outcome.Rejected(job.name(), job.label(), PlainText.of(job.name() + ": " + reason));
    }

    private static Outcome unread(CaptureJob job, IOException e) {
        return e instanceof CaptureException
                ? new Outcome.Rejected(job.name(), job.label(), PlainText.of(String.valueOf(e.getMessage())))
                : rejected(job, "cannot be read: " + Reasons.of(e));
    }

    private Outcome analyse(CaptureWork work) {
        CaptureJob job = work.job();
        if (job.problem().isPresent()) {
            return new Outcome.Rejected(job.name(), job.label(), job.problem().get());
        }
        try {
            SampleSource source = Recordings.open(job.file(), job.name(), readOptions);
            return new CaptureAnalyser(job.settings(), work.learnt()).analyse(source, work::digest, job.label());
        } catch (IOException e) {
            return unread(job, e);
        }
    }

    /**
     * What tells that a file was written to meanwhile.
     *
     * @param bytes its size; -1 where it is not there
     * @param time of its last change
     */
    private record FileState(long bytes, long time) {
        static FileState of(Path file) {
            try {
                return new FileState(
                        Files.size(file), Files.getLastModifiedTime(file).to(TimeUnit.NANOSECONDS));
            } catch (IOException e) {
                return new FileState(-1, 0);
            }
        }
    }
}
