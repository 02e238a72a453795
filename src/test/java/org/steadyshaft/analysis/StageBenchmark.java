package org.steadyshaft.analysis;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.steadyshaft.condition.HumMeter;
import org.steadyshaft.front.ChannelFront;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.speed.CycleFinder;
import org.steadyshaft.speed.SpectralTracker;

/** Prints how fast each stage is that works on samples, what it allocates, and how much memory a long recording takes. Run by hand. */
final class StageBenchmark {
    private static final double STRETCH_SECONDS = 60;
    private static final int WARM_UPS = 2;
    private static final int REPETITIONS = 5;
    private static final double PEAK = 0.4;

    /** Of the 16-bit steps about 13: the noise of an ordinary recording, 57 dB below the tacho. */
    private static final double NOISE_RMS = 0.0004;

    /** Whole cycles fit into the stretch; neither is near a multiple of 50 Hz. */
    private static final double[] TACHO_HZ = {83, 1013};

    /** Something that goes through a recording and gives a count, as a sign that the work was done. */
    @FunctionalInterface
    private interface Stage {
        long run() throws IOException;
    }

    private final com.sun.management.ThreadMXBean threads =
            (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    private final OperatingSystemMXBean system = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private StageBenchmark() {}

    public static void main(String[] args) throws IOException, InterruptedException {
        StageBenchmark benchmark = new StageBenchmark();
        benchmark.printPaces();
        System.out.println();
        benchmark.printMemory();
    }

    private static LoopedRecording recording(double sampleRateHz, double tachoHz, double seconds) {
        double rpm = new Tachometer(8).rpm(tachoHz);
        Settings settings = Settings.clean(sampleRateHz, STRETCH_SECONDS)
                .withShape(PEAK * 1000 / rpm, 0.03, 0.05)
                .withNoise(NOISE_RMS, 1);
        DrawnTacho tacho = new DrawnTacho("made", DrawnSpeed.level(rpm), settings);
        return new LoopedRecording(new Quantised(tacho, 16, 1), seconds);
    }

    private void printPaces() throws IOException {
        System.out.printf(
                Locale.ROOT,
                "Each stage over %.0f s in memory, on all processors: median of %d after %d to warm up; processor time is that of"
                        + " all threads, the share is that of the whole analysis.%n",
                STRETCH_SECONDS,
                REPETITIONS,
                WARM_UPS);
        System.out.printf(
                "%-10s%-9s%-18s%14s%14s%10s%14s%12s%n",
                "rate", "tacho", "stage", "Msamples/s", "by the wall", "share", "allocated kB", "count");
        for (double rate : new double[] {48000, 192000}) {
            for (double hz : TACHO_HZ) {
                printPaces(recording(rate, hz, STRETCH_SECONDS), hz);
            }
        }
    }

    private void printPaces(SampleSource source, double hz) throws IOException {
        double mains = AnalysisSettings.USUAL_MAINS_HZ;
        FirstPass first = FirstPass.of(source, 0, 1, mains, 8);
        KeptWaveform kept = first.waveform();
        Stage whole = () -> Analysed.rotation(source).track().size();
        double all = measure(whole).cpuSeconds;
        print(source, hz, all, "reading alone", () -> read(source));
        print(
                source,
                hz,
                all,
                "pilot and pass",
                () -> ChannelFront.of(source, 0, 1, mains).size());
        print(source, hz, all, "hum", () -> HumMeter.of(kept, mains).amplitude().isPresent() ? 1 : 0);
        print(
                source,
                hz,
                all,
                "tracker",
                () -> new SpectralTracker(kept, 0.3, mains, 6).track().rotatingFrames());
        print(source, hz, all, "crossings", () -> cycles(first));
        print(source, hz, all, "whole analysis", whole);
    }

    private static long read(SampleSource source) throws IOException {
        long[] aboveZero = {0};
        double[][] block = new double[1][1 << 15];
        try (SampleRange range = new SampleRange(source, 0)) {
            for (long left = source.samples(); left > 0; left -= block[0].length) {
                range.fill(block, 0, block[0].length);
                for (double value : block[0]) {
                    aboveZero[0] += value > 0 ? 1 : 0;
                }
            }
        }
        return aboveZero[0];
    }

    private static long cycles(FirstPass first) throws IOException {
        return new CycleFinder(first.waveform(), first.track(), List.of(), first.mainsHum())
                .cycles()
                .cycles();
    }

    private record Cost(double cpuSeconds, double wallSeconds, double allocatedBytes, long count) {}

    private Cost measure(Stage stage) throws IOException {
        double[] cpuSeconds = new double[REPETITIONS];
        double[] wallSeconds = new double[REPETITIONS];
        double[] allocated = new double[REPETITIONS];
        long count = 0;
        for (int i = -WARM_UPS; i < REPETITIONS; i++) {
            long cpuNanos = system.getProcessCpuTime();
            long wallNanos = System.nanoTime();
            long bytes = allocatedBytes();
            count = stage.run();
            int kept = Math.max(0, i);
            cpuSeconds[kept] = 1e-9 * (system.getProcessCpuTime() - cpuNanos);
            wallSeconds[kept] = 1e-9 * (System.nanoTime() - wallNanos);
            allocated[kept] = allocatedBytes() - bytes;
        }
        return new Cost(median(cpuSeconds), median(wallSeconds), median(allocated), count);
    }

    private long allocatedBytes() {
        long sum = 0;
        for (long bytes : threads.getThreadAllocatedBytes(threads.getAllThreadIds())) {
            sum += Math.max(0, bytes);
        }
        return sum;
    }

    private void print(SampleSource source, double hz, double wholeSeconds, String name, Stage stage)
            throws IOException {
        Cost cost = measure(stage);
        System.out.printf(
                Locale.ROOT,
                "%-10s%-9s%-18s%14.1f%14.1f%9.0f%%%14.0f%12d%n",
                String.format(Locale.ROOT, "%.0f kHz", source.sampleRateHz() / 1000),
                String.format(Locale.ROOT, "%.0f Hz", hz),
                name,
                1e-6 * source.samples() / cost.cpuSeconds,
                1e-6 * source.samples() / cost.wallSeconds,
                100 * cost.cpuSeconds / wholeSeconds,
                1e-3 * cost.allocatedBytes,
                cost.count);
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private void printMemory() throws InterruptedException {
        System.out.printf(
                Locale.ROOT,
                "Living heap of a whole analysis above that before it, 48 kHz; the heap may not pass %.0f MB.%n",
                1e-6 * Runtime.getRuntime().maxMemory());
        System.out.printf(
                "%-9s%-10s%12s%14s%14s%18s%20s%n",
                "tacho", "length", "cycles", "growth MB", "samples MB", "bytes a cycle", "further bytes");
        for (double hz : TACHO_HZ) {
            Growth before = new Growth(0, 0);
            for (double minutes : new double[] {3, 10, 30}) {
                before = printMemory(hz, minutes, before);
            }
        }
    }

    private record Growth(long cycles, long bytes) {}

    /** "further bytes": growth over that of the next shorter recording, for each cycle more. */
    private static Growth printMemory(double hz, double minutes, Growth shorter) throws InterruptedException {
        SampleSource source = recording(48000, hz, 60 * minutes);
        long[] cycles = {0};
        long bytes = LiveHeap.peakGrowthBytes(
                () -> cycles[0] = Analysed.rotation(source).track().size());
        System.out.printf(
                Locale.ROOT,
                "%-9s%-10s%12d%14.1f%14.1f%18.0f%20.0f%n",
                String.format(Locale.ROOT, "%.0f Hz", hz),
                String.format(Locale.ROOT, "%.0f min", minutes),
                cycles[0],
                1e-6 * bytes,
                1e-6 * Double.BYTES * source.samples(),
                (double) bytes / cycles[0],
                (double) (bytes - shorter.bytes) / (cycles[0] - shorter.cycles));
        return new Growth(cycles[0], bytes);
    }
}
