package org.steadyshaft.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.signal.CycleTimes;

/**
 * Every crossing of a linear sweep, found by both passes, against the law of motion.
 *
 * <p>Source: calculus. A frequency f0 + k t has turned f0 t + k t^2 / 2 cycles, so rising crossing n lies at
 * 2 n / (f0 + sqrt(f0^2 + 2 k n)). The sweep itself is also compared with SCIPY's (scipy.signal.chirp, SciPy 1.10.1, run here,
 * scipy/recipe.py, scipy/sweeps.csv), to 1e-9: its phase of up to 20,000 rad is rounded at 1e-11.
 *
 * <p>Tolerance, as a share of the period: what disturbs a sweep without noise are the filter's echo of the recording's
 * ends, 3 periods away and more, and the bent gain at the edges of the band, where a sweep's phase is off by k G'' / (4
 * pi G) rad (an estimate: second term of the quasi-steady expansion, from memory) with G'' = pi^2 / 2 / (0.45 fc)^2.
 * Where the frame's frequencies stay between 0.45 and 1.5 times its centre only the ends count: 0.001 allowed, measured
 * 0.00041. From 20 Hz on, frames of 1.4 s sweep over more than the band; at 44 Hz a frame centred on 25 Hz bends by 0.12
 * rad at a weight of 0.16, 0.003 of a period at the very most; 0.002 allowed, measured 0.0009 up and 0.0012 down. A
 * shift by one sample is 0.0083 to 0.03 at the fast end.
 */
class ChirpLawPublishedTest {
    private static final double RATE_HZ = 48000;

    /** Three cycles are left out at either end, and one more may begin or end outside. */
    private static final int LEFT_OUT = 8;

    @ParameterizedTest
    @CsvSource({
        "20, 400, 10, 0.002",
        "400, 20, 10, 0.002",
        "100, 1500, 4, 0.001",
        "100, 1500, 10, 0.001",
        "1000, 2000, 0.5, 0.001"
    })
    void everyCrossingIsWhereTheLawSays(double fromHz, double toHz, double seconds, double allowed) throws IOException {
        Sweep sweep = new Sweep(fromHz, (toHz - fromHz) / seconds);
        CycleTimes cycles = cycles(sweep, seconds);
        double all = sweep.cyclesAt(seconds);
        assertTrue(cycles.crossings() >= all - LEFT_OUT, cycles.crossings() + " crossings of " + all);
        assertCrossings(sweep, cycles, allowed);
    }

    /**
     * Where the frequency changes by 1.2 times itself or more within a frame of the first pass (0.34 s; 350 Hz/s at 100 Hz),
     * the line is smeared over so many bins that such frames show none: rising, the row begins late; falling, it ends early.
     * What is found must still be right, and must be most of it.
     *
     * @param covered least share of all cycles, measured less some: 0.97, 0.91, 0.94, 0.98
     */
    @ParameterizedTest
    @CsvSource({"100, 1500, 3, 0.95", "100, 1500, 2, 0.88", "100, 1500, 1, 0.9", "1500, 100, 4, 0.95"})
    void aSweepTooFastForTheSlowestFramesLosesTheseAndNoCycleElsewhere(
            double fromHz, double toHz, double seconds, double covered) throws IOException {
        Sweep sweep = new Sweep(fromHz, (toHz - fromHz) / seconds);
        CycleTimes cycles = cycles(sweep, seconds);
        double share = cycles.crossings() / sweep.cyclesAt(seconds);
        assertTrue(share >= covered, "share of the cycles " + share);
        assertCrossings(sweep, cycles, 0.001);
    }

    @Test
    void theSweepIsTheOneThatOthersMake() {
        List<Row> rows = PublishedTable.rows("scipy/sweeps.csv");
        assertEquals(2 * 101, rows.size(), "points of two sweeps");
        for (Row row : rows) {
            double fromHz = row.number("from_hz");
            Sweep sweep = new Sweep(fromHz, (row.number("to_hz") - fromHz) / row.number("sweep_s"));
            assertEquals(row.number("value"), sweep.value(row.number("time_s")), 1e-9, row.toString());
        }
    }

    /** One row, each crossing the next cycle's, none off by more than is allowed. */
    private static void assertCrossings(Sweep sweep, CycleTimes cycles, double allowed) {
        assertEquals(1, cycles.segments(), "unbroken rows");
        long first = Math.round(sweep.cyclesAt(cycles.timeSeconds(0)));
        double worst = 0;
        double worstSeconds = 0;
        for (int i = 0; i < cycles.crossings(); i++) {
            double lawSeconds = sweep.crossingSeconds(first + i);
            double share = Math.abs(cycles.timeSeconds(i) - lawSeconds) * sweep.hz(lawSeconds);
            if (share > worst) {
                worst = share;
                worstSeconds = lawSeconds;
            }
        }
        String seen = String.format(Locale.ROOT, "off by %.3g of a period at %.3f s", worst, worstSeconds);
        assertTrue(worst <= allowed, seen);
    }

    private static CycleTimes cycles(Sweep sweep, double seconds) throws IOException {
        long samples = Math.round(seconds * RATE_HZ);
        FormulaSource source = new FormulaSource(RATE_HZ, samples, n -> 0.5 * sweep.value(n / RATE_HZ));
        return source.cycles(source.track());
    }

    /** A frequency that changes evenly: Hz at the start, and Hz a second. */
    private record Sweep(double startHz, double rise) {
        double hz(double timeSeconds) {
            return startHz + rise * timeSeconds;
        }

        double cyclesAt(double timeSeconds) {
            return startHz * timeSeconds + rise * timeSeconds * timeSeconds / 2;
        }

        double value(double timeSeconds) {
            return Math.sin(2 * Math.PI * cyclesAt(timeSeconds));
        }

        double crossingSeconds(long cycle) {
            return 2 * cycle / (startHz + Math.sqrt(startHz * startHz + 2 * rise * cycle));
        }
    }
}
