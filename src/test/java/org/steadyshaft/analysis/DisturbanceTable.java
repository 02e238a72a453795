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
import java.util.function.Function;
import java.util.function.LongFunction;

/**
 * Prints how well blips, ripple lines and hunting are found in simulated captures, against their size, the noise and the
 * frequencies, one factor at a time, and what is found where nothing was drawn. Run by hand as in DEVELOPERS.md; the one
 * argument, if any, is the number of captures a row.
 */
final class DisturbanceTable {
    /** About 320 blips or twelve lines a row: enough to see a share of some percent, or an rms to a fifth of itself. */
    private static final int USUAL_CAPTURES = 12;

    /** Captures with nothing in them are this many times as many, since what is counted there is rare. */
    private static final int MORE_EMPTY_CAPTURES = 2;

    private static final int THREADS = 2;

    private final int captures;
    private final ExecutorService pool;
    private long firstSeed;

    private DisturbanceTable(int captures, ExecutorService pool) {
        if (captures < 1) {
            throw new IllegalArgumentException(captures + " captures a row; expected 1 at least");
        }
        this.captures = captures;
        this.pool = pool;
    }

    public static void main(String[] args) throws InterruptedException, ExecutionException {
        long startNanos = System.nanoTime();
        int captures = args.length > 0 ? Integer.parseInt(args[0]) : USUAL_CAPTURES;
        ExecutorService pool = Executors.newFixedThreadPool(THREADS);
        try {
            DisturbanceTable table = new DisturbanceTable(captures, pool);
            table.printHead();
            table.printBlips();
            table.printLines();
            table.printFastLines();
            table.printHunting();
            table.printInvented();
        } finally {
            pool.shutdownNow();
        }
        System.out.printf(Locale.ROOT, "took %.0f s%n", 1e-9 * (System.nanoTime() - startNanos));
    }

    private void printHead() {
        print(
                "%d captures a row, 8 pole pairs with a pole pattern, white noise counted up to %.0f Hz.%n",
                captures, 0.5 * SwingCase.COUNTED_RATE_HZ);
        print(
                "Errors are relative to what was drawn, over what was found; worst: the largest. One factor varies, the%n");
        print("others are those of the base.%n");
    }

    private void printBlips() throws InterruptedException, ExecutionException {
        BlipCase base = BlipCase.BASE;
        print(
                "%nBlips. Base: %.1f %%, %.0f dB, tacho %.0f Hz. %.0f s a capture; ripple of 0.2 %% at 100 Hz, wander 0.05 %%.%n",
                base.sizePercent(), base.snrDb(), base.tachoHz(), base.lengthSeconds());
        print(
                "%-8s%9s%7s%9s%9s%11s%10s%12s%10s%11s%9s%n",
                "factor",
                "value",
                "drawn",
                "found %",
                "false/h",
                "peak bias%",
                "peak rms%",
                "peak worst%",
                "time rms",
                "time worst",
                "cause %");
        for (double percent : new double[] {0.5, 1, 2, 5, 10}) {
            printBlips("size", percent + " %", base.withSize(percent));
        }
        for (int db : new int[] {30, 40, 45, 55}) {
            printBlips("noise", db + " dB", base.withSnr(db));
        }
        for (int hz : new int[] {30, 60, 120, 300, 800}) {
            printBlips("tacho", hz + " Hz", base.withTacho(hz));
        }
    }

    private void printBlips(String factor, String value, BlipCase blips)
            throws InterruptedException, ExecutionException {
        BlipErrors errors =
                BlipErrors.of(trials(captures, seed -> BlipErrors.Trial.of(blips.draw(seed), blips.lengthSeconds())));
        print(
                "%-8s%9s%7d%9.1f%9.1f%11.1f%10.1f%12.1f%7.1f ms%8.1f ms%9.1f%n",
                factor,
                value,
                errors.drawn(),
                errors.foundPercent(),
                errors.falsePerHour(),
                errors.peakBiasPercent(),
                errors.peakRmsPercent(),
                errors.peakWorstPercent(),
                1000 * errors.timeRmsSeconds(),
                1000 * errors.timeWorstSeconds(),
                errors.rightCausePercent());
    }

    private void printLines() throws InterruptedException, ExecutionException {
        SwingCase base = SwingCase.RIPPLE;
        printSwingHead("Ripple lines", base);
        for (double share : new double[] {0.01, 0.1, 0.25, 0.4, 0.48}) {
            printSwings("line/tacho", share + "", base.withLine(share * base.tachoHz()), SwingErrors::line);
        }
        for (double percent : new double[] {0.02, 0.05, 0.1, 0.5, 2}) {
            printSwings("size", percent + " %", base.withSize(percent), SwingErrors::line);
        }
        for (int db : new int[] {30, 45, 60}) {
            printSwings("noise", db + " dB", base.withSnr(db), SwingErrors::line);
        }
        printSwings("sideband", "3 x mains", SwingCase.AT_MAINS_MULTIPLE, SwingErrors::line);
    }

    private void printFastLines() throws InterruptedException, ExecutionException {
        SwingCase base = SwingCase.FAST;
        printSwingHead("Fast lines", base);
        print("cause: twice mains.%n");
        for (double wander : new double[] {0.02, 0.1, 0.4}) {
            for (int hz : new int[] {190, 150, 130}) {
                String value = hz + " Hz " + wander + " %";
                printSwings("tacho, wander", value, base.withTacho(hz).withWander(wander), SwingErrors::fastLine);
            }
        }
    }

    private void printHunting() throws InterruptedException, ExecutionException {
        SwingCase base = SwingCase.HUNTING;
        printSwingHead("Hunting", base);
        for (double percent : new double[] {0.1, 0.3, 1, 3}) {
            printSwings("size", percent + " %", base.withSize(percent), SwingErrors::hunting);
        }
        for (double hz : new double[] {0.2, 0.5, 2, 6}) {
            printSwings("frequency", hz + " Hz", base.withLine(hz), SwingErrors::hunting);
        }
    }

    private static void printSwingHead(String title, SwingCase base) {
        print(
                "%n%s. Base: %s Hz, %s %%, %.0f dB, tacho %.0f Hz, wander %s %%. %.0f s a capture.%n",
                title,
                base.lineHz(),
                base.percent(),
                base.snrDb(),
                base.tachoHz(),
                base.wanderPercent(),
                base.lengthSeconds());
        print(
                "%-14s%14s%9s%10s%10s%10s%11s%11s%9s%n",
                "factor", "value", "found %", "amp bias%", "amp rms%", "worst %", "freq rms%", "worst %", "cause %");
    }

    private void printSwings(
            String factor, String value, SwingCase swing, Function<SwingCase.Drawn, Optional<SwingErrors.Hit>> finder)
            throws InterruptedException, ExecutionException {
        SwingErrors errors = SwingErrors.of(trials(captures, seed -> finder.apply(swing.draw(seed))));
        print(
                "%-14s%14s%9.1f%10.2f%10.2f%10.2f%11.3f%11.3f%9.0f%n",
                factor,
                value,
                errors.foundPercent(),
                errors.amplitudeBiasPercent(),
                errors.amplitudeRmsPercent(),
                errors.amplitudeWorstPercent(),
                errors.frequencyRmsPercent(),
                errors.frequencyWorstPercent(),
                errors.rightCausePercent());
    }

    private void printInvented() throws InterruptedException, ExecutionException {
        SwingCase base = SwingCase.NONE;
        print(
                "%nNothing drawn but a wander. Base: %.0f dB, tacho %.0f Hz, wander %s %%. %d captures a row of %.0f s.%n",
                base.snrDb(),
                base.tachoHz(),
                base.wanderPercent(),
                MORE_EMPTY_CAPTURES * captures,
                base.lengthSeconds());
        print("%-8s%9s%16s%12s%11s%9s%n", "factor", "value", "lines a capture", "largest %", "hunting %", "blips/h");
        for (int db : new int[] {30, 45, 60}) {
            printInvented("noise", db + " dB", base.withSnr(db));
        }
        for (int hz : new int[] {30, 300}) {
            printInvented("tacho", hz + " Hz", base.withTacho(hz));
        }
        for (double percent : new double[] {0, 0.1, 0.2, 0.5}) {
            printInvented("wander", percent + " %", base.withWander(percent));
        }
    }

    private void printInvented(String factor, String value, SwingCase none)
            throws InterruptedException, ExecutionException {
        InventedDisturbances invented = InventedDisturbances.of(trials(
                MORE_EMPTY_CAPTURES * captures,
                seed -> InventedDisturbances.Trial.of(none.draw(seed), none.lengthSeconds())));
        print(
                "%-8s%9s%16.2f%12.3f%11.1f%9.1f%n",
                factor,
                value,
                invented.linesACapture(),
                invented.largestPercent(),
                invented.huntingPercent(),
                invented.blipsPerHour());
    }

    private static void print(String format, Object... values) {
        System.out.printf(Locale.ROOT, format, values);
    }

    /** Every row draws from seeds of its own. */
    private <T> List<T> trials(int count, LongFunction<T> trial) throws InterruptedException, ExecutionException {
        List<Callable<T>> tasks = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            long seed = firstSeed + i;
            tasks.add(() -> trial.apply(seed));
        }
        firstSeed += 1_000_000;
        List<T> trials = new ArrayList<>();
        for (Future<T> future : pool.invokeAll(tasks)) {
            trials.add(future.get());
        }
        return trials;
    }
}
