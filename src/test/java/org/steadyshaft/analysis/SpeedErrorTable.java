package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/**
 * Prints how far the mean speed is off, against noise, sample rate, depth, tacho frequency and length, beside the bound that
 * no estimate can beat. Run by hand as in DEVELOPERS.md; the one argument, if any, is the number of captures a row.
 */
final class SpeedErrorTable {
    /** A fifth of a standard deviation is what the rms of twenty captures is known to, enough to see a factor. */
    private static final int USUAL_CAPTURES = 20;

    private static final int THREADS = 2;

    private static final double NO_NOISE = Double.POSITIVE_INFINITY;

    private record Row(String factor, String value, ToneCase tone) {}

    private final int captures;
    private final List<Row> rows = new ArrayList<>();

    private SpeedErrorTable(int captures) {
        if (captures < 1) {
            throw new IllegalArgumentException(captures + " captures a row; expected 1 at least");
        }
        this.captures = captures;
        addRows(ToneCase.BASE);
    }

    public static void main(String[] args) throws InterruptedException, ExecutionException {
        new SpeedErrorTable(args.length > 0 ? Integer.parseInt(args[0]) : USUAL_CAPTURES).print();
    }

    private void addRows(ToneCase base) {
        rows.add(new Row("base", "", base));
        for (int db = 10; db <= 60; db += 10) {
            rows.add(new Row("noise", db + " dB", base.withSnr(db)));
        }
        for (double rate : new double[] {8000, 44100, 48000, 96000, 192000}) {
            rows.add(new Row("rate", plain(rate / 1000) + " kHz", base.withRate(rate)));
        }
        for (int bits : new int[] {8, 12, 16, 24}) {
            rows.add(new Row("depth", bits + " bit", base.withBits(bits)));
        }
        for (int bits : new int[] {8, 12, 16, 24}) {
            rows.add(new Row(
                    "depth, no noise", bits + " bit", base.withBits(bits).withSnr(NO_NOISE)));
        }
        for (double hz : new double[] {4, 12, 47, 200, 1000, 4000}) {
            rows.add(new Row("tacho", plain(hz) + " Hz", base.withTacho(hz)));
        }
        for (double seconds : new double[] {1, 3, 30}) {
            rows.add(new Row("length", plain(seconds) + " s", base.withLength(seconds)));
        }
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }

    private void print() throws InterruptedException, ExecutionException {
        long startNanos = System.nanoTime();
        printHead();
        ExecutorService pool = Executors.newFixedThreadPool(THREADS);
        try {
            for (int i = 0; i < rows.size(); i++) {
                print(rows.get(i), SpeedErrors.of(trials(pool, rows.get(i).tone(), 1_000_000L * i)));
            }
        } finally {
            pool.shutdownNow();
        }
        System.out.printf(Locale.ROOT, "took %.0f s%n", 1e-9 * (System.nanoTime() - startNanos));
    }

    private void printHead() {
        ToneCase base = ToneCase.BASE;
        System.out.printf(
                Locale.ROOT,
                "Relative error of the mean speed [ppm], %d captures a row. Base: %s Hz, %d bit, %s dB, tacho %s Hz, %s s.%n",
                captures,
                plain(base.sampleRateHz()),
                base.bits(),
                plain(base.snrDb()),
                plain(base.tachoHz()),
                plain(base.lengthSeconds()));
        System.out.println(
                "The noise is counted in the whole band, so at equal dB a higher rate is quieter in each hertz.");
        System.out.println(
                "bound: least rms of an unbiased estimate. worst/U: largest error over its own stated uncertainty,");
        System.out.println(
                "k = 2 without the clock: for 20 normal errors about 1. none: captures without a speed. off: captures");
        System.out.println("wrong by half a cycle or more.");
        System.out.println();
        System.out.printf(
                "%-16s%-10s%10s%10s%10s%10s%11s%9s%8s%8s%n",
                "factor", "value", "bias", "rms", "worst", "bound", "rms/bound", "worst/U", "none", "off");
    }

    private void print(Row row, SpeedErrors errors) {
        double bound = row.tone().boundPpm();
        System.out.printf(
                Locale.ROOT,
                "%-16s%-10s%10.3g%10.3g%10.3g%10.3g%11.3g%9.3g%8s%8s%n",
                row.factor(),
                row.value(),
                errors.biasPpm(),
                errors.rmsPpm(),
                errors.worstPpm(),
                bound,
                errors.rmsPpm() / bound,
                errors.worstOverStated(),
                errors.speedless() + "/" + captures,
                errors.miscounted() + "/" + captures);
    }

    private List<Optional<SpeedErrors.Trial>> trials(ExecutorService pool, ToneCase tone, long firstSeed)
            throws InterruptedException, ExecutionException {
        List<Callable<Optional<SpeedErrors.Trial>>> tasks = new ArrayList<>();
        for (int i = 0; i < captures; i++) {
            long seed = firstSeed + i;
            tasks.add(() -> SpeedErrors.Trial.of(tone.draw(seed)));
        }
        List<Optional<SpeedErrors.Trial>> trials = new ArrayList<>();
        for (Future<Optional<SpeedErrors.Trial>> future : pool.invokeAll(tasks)) {
            trials.add(future.get());
        }
        return trials;
    }
}
