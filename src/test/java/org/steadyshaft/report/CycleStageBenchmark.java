package org.steadyshaft.report;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.BlipExtract;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.ChannelRole;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.analysis.SourceFacts;
import org.steadyshaft.analysis.WaveformExtract;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.RunMeter;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.file.WholeFiles;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.LoadEventFinder;
import org.steadyshaft.response.Step;
import org.steadyshaft.response.StepFinder;
import org.steadyshaft.ripple.OrderMeter;
import org.steadyshaft.ripple.RippleReading;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.MeanSpeedMeter;
import org.steadyshaft.speed.PoleCountCheck;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.speed.PolePatternLearner;
import org.steadyshaft.speed.SpeedTrackMaker;
import org.steadyshaft.stability.AlarmFinder;
import org.steadyshaft.stability.AllanMeter;
import org.steadyshaft.stability.DriftMeter;
import org.steadyshaft.stability.SteadyFinder;

/**
 * Prints what each stage that works on cycles, and each file written, takes for a run of half an hour: its first run in this
 * program, as a capture alone meets it, then the median of more, and the memory it allocates. Run by hand; an argument names a
 * folder for the files, so that they can be compared with those of an earlier build.
 */
final class CycleStageBenchmark {
    private static final int CYCLES = 360_000;
    private static final int REPETITIONS = 7;
    private static final double SAMPLE_RATE_HZ = 96000;
    private static final double MAINS_HZ = 50;

    /** A stage and what it makes for those after it. */
    @FunctionalInterface
    private interface Stage<T> {
        T run() throws IOException;
    }

    private record Cost(double cpuSeconds, double wallSeconds, long bytes) {}

    private final com.sun.management.ThreadMXBean thread =
            (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    private final Map<String, Cost[]> costs = new LinkedHashMap<>();
    private final MadeLongRun run = new MadeLongRun(CYCLES, 1);
    private final FundamentalTrack spectra = run.spectra();
    private final Path out;
    private int repetition;

    private CycleStageBenchmark(Path out) {
        this.out = out;
    }

    public static void main(String[] args) throws IOException {
        Path out = args.length > 0 ? Path.of(args[0]) : Files.createTempDirectory("stages");
        CycleStageBenchmark benchmark = new CycleStageBenchmark(out);
        for (int i = 0; i < REPETITIONS; i++) {
            benchmark.repetition = i;
            benchmark.once();
        }
        benchmark.print();
    }

    private <T> T measured(String name, Stage<T> stage) throws IOException {
        long bytes = thread.getCurrentThreadAllocatedBytes();
        long cpuNanos = thread.getCurrentThreadCpuTime();
        long wallNanos = System.nanoTime();
        T made = stage.run();
        Cost cost = new Cost(
                1e-9 * (thread.getCurrentThreadCpuTime() - cpuNanos),
                1e-9 * (System.nanoTime() - wallNanos),
                thread.getCurrentThreadAllocatedBytes() - bytes);
        costs.computeIfAbsent(name, n -> new Cost[REPETITIONS])[repetition] = cost;
        return made;
    }

    private void once() throws IOException {
        Tachometer tachometer = MadeLongRun.TACHOMETER;
        CycleTimes cycles = run.cycles();
        Optional<PolePattern> pattern =
                measured("PolePatternLearner", () -> new PolePatternLearner(tachometer).learn(cycles));
        SpeedTrack track = measured("SpeedTrackMaker", () -> new SpeedTrackMaker(tachometer).make(cycles, pattern));
        List<Stretch> spots = spots();
        measured("CycleTimes.without 500", () -> cycles.without(spots));
        MeanSpeed speed = measured(
                "MeanSpeedMeter",
                () -> new MeanSpeedMeter(tachometer, 50, SAMPLE_RATE_HZ, 3e-5)
                        .measure(cycles, track, spectra, Optional.empty()));
        measured("PoleCountCheck", () -> new PoleCountCheck(8, MAINS_HZ).likelier(cycles, cycles, false));
        List<Stretch> steady = measured("SteadyFinder", () -> new SteadyFinder().find(track));
        Rotation rotation = rest(track, steady, Optional.empty(), speed, pattern);
        write(outcome(rotation));
    }

    /** Five hundred places to be left out, as a recording with as many lost buffers has them. */
    private List<Stretch> spots() {
        Stretch[] spots = new Stretch[500];
        for (int i = 0; i < spots.length; i++) {
            double from = (i + 0.5) * run.seconds() / spots.length;
            spots[i] = new Stretch(from, from + 0.02);
        }
        return List.of(spots);
    }

    private Rotation rest(
            SpeedTrack track,
            List<Stretch> steady,
            Optional<Blips> blips,
            MeanSpeed speed,
            Optional<PolePattern> pattern)
            throws IOException {
        List<Blip> events = blips.map(Blips::events).orElse(List.of());
        List<Stretch> stretches = events.stream()
                .map(b -> new Stretch(b.fromSeconds(), b.toSeconds()))
                .toList();
        List<Step> steps = measured("StepFinder", () -> new StepFinder().find(track, steady));
        List<LoadEvent> loads = measured("LoadEventFinder", () -> new LoadEventFinder().find(track, steady, stretches));
        return new Rotation(
                speed,
                new TachoLevel(0.4, OptionalDouble.empty()),
                pattern,
                track,
                spectra,
                steady,
                RippleReading.NONE,
                measured("OrderMeter", () -> new OrderMeter(MadeLongRun.TACHOMETER).measure(track, steady, stretches)),
                blips,
                List.of(),
                measured("DriftMeter", () -> new DriftMeter().measure(track, steady, stretches)),
                measured("AllanMeter", () -> new AllanMeter().measure(track, steady)),
                steps,
                loads,
                measured(
                        "AlarmFinder",
                        () -> new AlarmFinder(OptionalDouble.empty(), run.seconds(), s -> false)
                                .find(track, steady, List.of())),
                events.stream()
                        .limit(12)
                        .map(b -> new BlipExtract(b, extract(b.fromSeconds() - 0.15, 0.5)))
                        .toList(),
                Optional.empty());
    }

    private static WaveformExtract extract(double fromSeconds, double seconds) {
        double[] values = new double[(int) (seconds * SAMPLE_RATE_HZ)];
        for (int i = 0; i < values.length; i++) {
            values[i] = 0.4 * Math.sin(2 * Math.PI * 200 * i / SAMPLE_RATE_HZ);
        }
        return new WaveformExtract(fromSeconds, SAMPLE_RATE_HZ, DoubleSeries.of(values));
    }

    private Outcome.Analysed outcome(Rotation rotation) {
        SampleFormat format = new SampleFormat(
                "WAV",
                "PCM 16 bit",
                "FS",
                OptionalDouble.of(1),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SOUND_CARD);
        SourceFacts facts =
                new SourceFacts("made.wav", "00", format, SAMPLE_RATE_HZ, "1", List.of(ChannelRole.TACHO), (long)
                        (run.seconds() * SAMPLE_RATE_HZ));
        AnalysisSettings settings =
                new AnalysisSettings(8, AnalysisSettings.PolePairsFrom.OPTION, MAINS_HZ, Optional.empty());
        return new Outcome.Analysed(
                facts, CaptureLabel.NONE, settings, List.of(), Optional.of(rotation), extract(900, 0.04));
    }

    private final Map<String, String> written = new TreeMap<>();

    private void write(Outcome.Analysed outcome) throws IOException {
        Rotation rotation = outcome.rotation().orElseThrow();
        Path place = out.resolve("made");
        written.clear();
        file("result.json", w -> ResultJson.write(outcome, MotorVerdictTest.verdict(outcome), w));
        file("track.csv", w -> Tables.track(rotation.track(), w));
        file("events.csv", w -> Tables.events(rotation, w));
        CapturePage page = measured(
                "page and charts",
                () -> CapturePage.of(outcome, MotorVerdictTest.verdict(outcome), new Ways("", "", false)));
        file("report.html", w -> Pages.write("capture.jte", Map.of("page", page), w));
        CaptureSummary summary =
                measured("CaptureSummary", () -> CaptureSummary.of("made", outcome, MotorVerdictTest.verdict(outcome)));
        Optional<Run> reduced = measured("RunMeter", () -> new RunMeter().measure("made", outcome));
        CaptureStore store = new CaptureStore(out);
        StoredCapture stored = new StoredCapture("key", written, summary, reduced);
        measured("CaptureStore keep", () -> {
            store.keep("made", stored);
            return place;
        });
        Optional<StoredCapture> again = measured("CaptureStore find", () -> store.find("made", "key"));
        if (!again.equals(Optional.of(stored))) {
            throw new IllegalStateException("what is kept is not what was to be kept");
        }
        if (repetition == 0) {
            page.charts()
                    .forEach(c -> System.out.printf(
                            "%-50s%10d bytes%n", c.words().heading(), c.svg().length()));
            page.closeUps()
                    .forEach(c -> System.out.printf(
                            "%-50s%10d bytes%n", c.words().heading(), c.svg().length()));
        }
    }

    private void file(String name, WholeFiles.Content content) throws IOException {
        measured(name, () -> {
            written.put(name, WholeFiles.write(out.resolve("made").resolve(name), content));
            return name;
        });
    }

    private void print() {
        System.out.printf(
                "%-26s%12s%12s%12s%12s%12s%n",
                "stage", "first ms", "by the wall", "median ms", "by the wall", "alloc. kB");
        double[] sum = new double[5];
        costs.forEach((name, cost) -> {
            Cost[] later = Arrays.copyOfRange(cost, 1, cost.length);
            double[] row = {
                1e3 * cost[0].cpuSeconds,
                1e3 * cost[0].wallSeconds,
                1e3 * median(Arrays.stream(later).mapToDouble(Cost::cpuSeconds).toArray()),
                1e3 * median(Arrays.stream(later).mapToDouble(Cost::wallSeconds).toArray()),
                1e-3 * median(Arrays.stream(later).mapToDouble(Cost::bytes).toArray())
            };
            print(name, row);
            Arrays.setAll(sum, i -> sum[i] + row[i]);
        });
        print("sum", sum);
    }

    private static void print(String name, double[] row) {
        System.out.printf(
                Locale.ROOT, "%-26s%12.1f%12.1f%12.2f%12.2f%12.0f%n", name, row[0], row[1], row[2], row[3], row[4]);
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return values[values.length / 2];
    }
}
