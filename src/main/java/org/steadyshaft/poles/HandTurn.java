package org.steadyshaft.poles;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * Counts the swings of a tacho that was turned by hand, however unevenly.
 *
 * <p>A tacho's voltage is the change of a flux that depends on the angle alone: the integral of the voltage swings between the same two
 * values whether the shaft goes fast or slowly, and rests where the shaft rests. Where it turns round before it has reached one of them, the
 * shaft was turned back. (That is Faraday's law; how it is used here is our own.)
 *
 * @param cycles whole swings, up and down, between the first and the last extreme
 * @param endCycles what may be missing before the first and behind the last; from 0 to 1
 * @param seconds from the first to the last extreme
 * @param slowestSeconds the longest half of a swing
 * @param backSeconds where the shaft was turned back; empty if it nowhere was
 * @param evenShare share of the swings that are as large as most, within a quarter
 * @param extremeSeconds when the flux was at its highest and lowest, in turn
 */
public record HandTurn(
        double cycles,
        double endCycles,
        double seconds,
        double slowestSeconds,
        List<Double> backSeconds,
        double evenShare,
        List<Double> extremeSeconds) {
    /** Enough for forty turns a second of a tacho of eight pole pairs, far more than a hand can do [Hz]. */
    private static final double RATE_HZ = 1000;

    /** The integral forgets an offset within so long; a half swing must be much shorter [s]. */
    private static final double FORGETS_SECONDS = 5;

    /** Halves of a swing that take longer come out too small. */
    private static final double SLOWEST_SECONDS = 1.5;

    /** An extreme counts once the flux has gone back from it by so much of a swing. */
    private static final double TURNED = 0.3;

    /** A swing this much smaller than most ended before its extreme: poles differ by some per cent only. */
    private static final double WHOLE = 0.78;

    private static final double EVEN = 0.25;
    private static final int FEWEST_SWINGS = 6;

    public HandTurn {
        backSeconds = List.copyOf(backSeconds);
        extremeSeconds = List.copyOf(extremeSeconds);
        if (!(cycles >= 0) || !(endCycles >= 0) || !(seconds >= 0)) {
            throw new IllegalArgumentException(cycles + " cycles in " + seconds + " s");
        }
    }

    /** Whether the halves of its swings were short enough. */
    public boolean wasQuickEnough() {
        return slowestSeconds <= SLOWEST_SECONDS;
    }

    /** Swings between two times, halves counted. */
    double cyclesBetween(double fromSeconds, double toSeconds) {
        return 0.5
                * extremeSeconds.stream()
                        .filter(t -> t >= fromSeconds && t < toSeconds)
                        .count();
    }

    /**
     * Counts a channel.
     *
     * @throws IOException if the recording cannot be read
     */
    public static HandTurn count(SampleSource source, int channel) throws IOException {
        Slow slow = Slow.of(source, channel);
        double[] flux = flux(slow);
        List<Integer> extremes = extremes(flux, 0.5 * range(flux));
        for (int pass = 0; pass < 3; pass++) {
            extremes = extremes(flux, TURNED * usualSwing(flux, extremes).orElse(Double.POSITIVE_INFINITY));
        }
        if (extremes.size() < FEWEST_SWINGS) {
            return new HandTurn(0, 1, 0, 0, List.of(), 0, List.of());
        }
        return judged(flux, extremes, usualSwing(flux, extremes).orElseThrow(), slow.rateHz);
    }

    private static HandTurn judged(double[] flux, List<Integer> extremes, double usual, double rateHz) {
        int last = extremes.size() - 1;
        int whole = 0;
        int even = 0;
        double slowest = 0;
        List<Double> back = new ArrayList<>();
        for (int i = 1; i <= last; i++) {
            double swing = Math.abs(flux[extremes.get(i)] - flux[extremes.get(i - 1)]) / usual;
            boolean end = i == 1 || i == last;
            even += Math.abs(swing - 1) <= EVEN ? 1 : 0;
            if (swing >= WHOLE) {
                whole++;
                slowest = Math.max(slowest, (extremes.get(i) - extremes.get(i - 1)) / rateHz);
            } else if (!end) {
                back.add(extremes.get(i) / rateHz);
            }
        }
        double firstSwing = Math.abs(flux[extremes.get(0)] - flux[0]) / usual;
        double lastSwing = Math.abs(flux[flux.length - 1] - flux[extremes.get(last)]) / usual;
        return new HandTurn(
                0.5 * whole,
                0.5 * Math.min(1, firstSwing) + 0.5 * Math.min(1, lastSwing),
                (extremes.get(last) - extremes.get(0)) / rateHz,
                slowest,
                back,
                (double) even / last,
                extremes.stream().map(i -> i / rateHz).toList());
    }

    /** The voltage at about a thousand samples a second. */
    private static final class Slow {
        private final double[] volts;
        private final double rateHz;

        private Slow(double[] volts, double rateHz) {
            this.volts = volts;
            this.rateHz = rateHz;
        }

        static Slow of(SampleSource source, int channel) throws IOException {
            int group = Math.max(1, (int) Math.floor(source.sampleRateHz() / RATE_HZ));
            double[] volts = new double[(int) (source.samples() / group)];
            double[][] block = new double[source.channels()][1 << 14];
            double sum = 0;
            int in = 0;
            int at = 0;
            try (BlockReader reader = source.open()) {
                for (int count = reader.read(block); count > 0 && at < volts.length; count = reader.read(block)) {
                    for (int i = 0; i < count && at < volts.length; i++) {
                        sum += block[channel][i];
                        if (++in == group) {
                            volts[at++] = sum / group;
                            sum = 0;
                            in = 0;
                        }
                    }
                }
            }
            return new Slow(Arrays.copyOf(volts, at), source.sampleRateHz() / group);
        }
    }

    private static double[] flux(Slow slow) {
        double mean = Arrays.stream(slow.volts).average().orElse(0);
        double keeps = 1 - 1 / (FORGETS_SECONDS * slow.rateHz);
        double[] flux = new double[slow.volts.length];
        double value = 0;
        for (int i = 0; i < flux.length; i++) {
            value = keeps * value + (slow.volts[i] - mean) / slow.rateHz;
            flux[i] = value;
        }
        return flux;
    }

    private static double range(double[] flux) {
        double low = Arrays.stream(flux).min().orElse(0);
        return Arrays.stream(flux).max().orElse(0) - low;
    }

    /** Highest and lowest places in turn, each left again by a depth at least. */
    private static List<Integer> extremes(double[] flux, double depth) {
        List<Integer> extremes = new ArrayList<>();
        int high = 0;
        int low = 0;
        int direction = 0;
        for (int i = 1; i < flux.length; i++) {
            high = flux[i] > flux[high] ? i : high;
            low = flux[i] < flux[low] ? i : low;
            if (direction >= 0 && flux[high] - flux[i] > depth) {
                extremes.add(high);
                direction = -1;
                low = i;
            } else if (direction <= 0 && flux[i] - flux[low] > depth) {
                extremes.add(low);
                direction = 1;
                high = i;
            }
            if (direction < 0) {
                high = i;
            } else if (direction > 0) {
                low = i;
            }
        }
        return extremes;
    }

    /** Median of the larger half: what was cut short does not belong to what is usual. */
    private static OptionalDouble usualSwing(double[] flux, List<Integer> extremes) {
        double[] swings = new double[Math.max(0, extremes.size() - 1)];
        for (int i = 0; i < swings.length; i++) {
            swings[i] = Math.abs(flux[extremes.get(i + 1)] - flux[extremes.get(i)]);
        }
        Arrays.sort(swings);
        return swings.length == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(swings[(int) (0.6 * (swings.length - 1))]);
    }
}
