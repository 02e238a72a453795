package org.steadyshaft.voltage;

import java.util.Arrays;
import org.steadyshaft.numeric.NormalFit;
import org.steadyshaft.numeric.OrthogonalFit;
import org.steadyshaft.numeric.Robust;

/**
 * Takes mains pick-up out of a piece: in blocks of half a second, cross-faded, sines at the mains and its multiples are fitted to what
 * level and slow angle do not explain. To be done while the angle is slow, or with what is known of the speed in it: a fast angle would
 * take the hum for speed. A line beside the tacho's own frequency beats with it: it is fitted in longer blocks, the longer the slower the
 * beat, and one that beats too slowly is left in.
 */
final class PieceHum {
    private static final double BLOCK_SECONDS = 0.5;
    private static final double[] MULTIPLES = {1, 2, 3, 5};

    /** So near to the tacho, in Hz or as a share of it, a line is fitted in long blocks. */
    private static final double BESIDE_HZ = 10;

    private static final double BESIDE_SHARE = 0.07;

    /** Room for what a blip or a wander moves. */
    private static final double ROOM = 1.5;

    /** In half a second it cannot be told from the tacho within this share of that. */
    private static final double SHORT_SHARE = 0.7;

    /** Level and angle are averaged over this time for it. */
    private static final double SLOW_SECONDS = 0.3;

    /** A slower beat than this is not told from level and angle. */
    static final double SLOWEST_BEAT_HZ = 1;

    /** Beats in a block, and in the average that must not follow them. */
    private static final double BEATS_A_BLOCK = 5;

    private static final double BEATS_AVERAGED = 2;

    /** Blocks to a median: a blip spoils three. */
    private static final int HALF_MEDIAN = 3;

    /** Lines above this share of the piece's rate are behind its low-pass. */
    private static final double HIGHEST_SHARE = 0.4;

    /** A short block's last samples hardly count in it. */
    private static final double LEAST_WEIGHT = 0.05;

    private static final double TURN = 2 * Math.PI;

    private final VoltagePiece piece;
    private final double mainsHz;
    private final double cleanHz;

    PieceHum(VoltagePiece piece, double mainsHz, double cleanHz) {
        this.piece = piece;
        this.mainsHz = mainsHz;
        this.cleanHz = cleanHz;
    }

    /** Sets the piece's hum-free waveform. */
    void remove() {
        int n = piece.samples();
        double[] clean = new double[n];
        for (int i = 0; i < n; i++) {
            clean[i] = piece.raw(i);
        }
        double[] beside = beside();
        removeFar(beside, clean);
        for (double hz : beside) {
            double beat = Math.abs(hz - cycleHz(0, n));
            if (beat >= SLOWEST_BEAT_HZ) {
                removeBeside(hz, beat, clean);
            }
        }
        piece.setVolts(clean);
    }

    /** Averages of the angle over no less time do not follow the beats of pick-up with the tacho [s]; 0 where none is beside it. */
    double beatsAveragedSeconds() {
        double tacho = cycleHz(0, piece.samples());
        return Arrays.stream(beside())
                .map(hz -> Math.abs(hz - tacho))
                .filter(beat -> beat >= SLOWEST_BEAT_HZ)
                .map(beat -> BEATS_AVERAGED / beat)
                .max()
                .orElse(0);
    }

    /** Lines that the tacho stays beside from the piece's begin to its end [Hz]. */
    private double[] beside() {
        int n = piece.samples();
        int block = Math.min(n, block(BLOCK_SECONDS));
        return Arrays.stream(MULTIPLES)
                .map(m -> m * mainsHz)
                .filter(f -> isWithin(1, f, cycleHz(0, n)))
                .filter(f -> Arrays.stream(starts(block)).allMatch(from -> isWithin(ROOM, f, cycleHz(from, block))))
                .toArray();
    }

    private void removeFar(double[] beside, double[] clean) {
        int block = block(BLOCK_SECONDS);
        int[] starts = starts(block);
        HumTrack track = new HumTrack(
                piece.firstSeconds() + 0.5 * block * piece.stepSeconds(),
                starts.length < 2 ? 0 : (double) starts[starts.length - 1] / (starts.length - 1) * piece.stepSeconds());
        double[] rest = unexplained(clean, SLOW_SECONDS);
        Hum hum = new Hum(clean.length);
        Waves waves = null;
        for (int from : starts) {
            double[] hz = Arrays.stream(lines(from, block))
                    .filter(f -> Arrays.stream(beside).noneMatch(b -> b == f))
                    .toArray();
            if (waves == null || !Arrays.equals(waves.hz, hz)) {
                waves = new Waves(hz, block, piece.stepSeconds());
            }
            double[] c = waves.fit(rest, from);
            waves.add(c, from, hum);
            track.add(told(hz, c, piece.timeSeconds(from)));
        }
        hum.takeOff(clean, LEAST_WEIGHT);
        piece.setHumTrack(track);
    }

    private int block(double seconds) {
        return (int) Math.max(16, Math.round(seconds / piece.stepSeconds()));
    }

    /** First samples of blocks that overlap by half or a little more, from the piece's begin to its end; none in a shorter piece. */
    private int[] starts(int block) {
        int room = piece.samples() - block;
        if (room < 0) {
            return new int[0];
        }
        int hops = (int) Math.ceil(room / (0.5 * block));
        int[] starts = new int[hops + 1];
        for (int k = 1; k <= hops; k++) {
            starts[k] = (int) ((long) room * k / hops);
        }
        return starts;
    }

    /** A line that beats with the tacho: medians over several long blocks, which a blip does not move. */
    private void removeBeside(double hz, double beatHz, double[] clean) {
        int block = block(BEATS_A_BLOCK / beatHz);
        int[] starts = starts(block);
        double[] rest = unexplained(clean, Math.max(SLOW_SECONDS, BEATS_AVERAGED / beatHz));
        Waves waves = new Waves(new double[] {hz}, block, piece.stepSeconds());
        double[] cosine = new double[starts.length];
        double[] sine = new double[starts.length];
        for (int k = 0; k < starts.length; k++) {
            double[] c = waves.fit(rest, starts[k]);
            double[] turned = turned(c[1], c[2], hz, starts[k] * piece.stepSeconds());
            cosine[k] = turned[0];
            sine[k] = turned[1];
        }
        cosine = Robust.runningMedian(cosine, HALF_MEDIAN);
        sine = Robust.runningMedian(sine, HALF_MEDIAN);
        Hum hum = new Hum(clean.length);
        for (int k = 0; k < starts.length; k++) {
            double[] c = turned(cosine[k], sine[k], hz, -starts[k] * piece.stepSeconds());
            waves.add(new double[] {0, c[0], c[1]}, starts[k], hum);
        }
        hum.takeOff(clean, 0);
    }

    private static boolean isWithin(double share, double hz, double cycleHz) {
        return Math.abs(hz - cycleHz) <= share * Math.max(BESIDE_HZ, BESIDE_SHARE * cycleHz);
    }

    /** Mean frequency of the tacho in a block [Hz]. */
    private double cycleHz(int from, int block) {
        return (piece.angle(from + block - 1) - piece.angle(from))
                * piece.polePairs()
                / (TURN * (block - 1) * piece.stepSeconds());
    }

    /** What slow level and angle leave of the waveform. */
    private double[] unexplained(double[] volts, double slowSeconds) {
        LocalSeries series = piece.series();
        int half = piece.halfWidth(slowSeconds);
        double[] level = Smoothing.hann(series.level, half);
        double[] lack = Smoothing.hann(series.lack, half);
        double[] levels = new double[piece.samples()];
        double[] lacks = new double[piece.samples()];
        new SeriesCubic(series.time, level, series.count).addTo(levels, piece.firstSeconds(), piece.stepSeconds());
        new SeriesCubic(series.time, lack, series.count).addTo(lacks, piece.firstSeconds(), piece.stepSeconds());
        double[] rest = new double[piece.samples()];
        for (int i = 0; i < rest.length; i++) {
            rest[i] = volts[i] - levels[i] * (piece.levelBasis(i) + piece.angleBasis(i) * lacks[i]);
        }
        return rest;
    }

    /** Frequencies fitted in a block [Hz]. */
    private double[] lines(int from, int block) {
        double cycleHz = cycleHz(from, block);
        double highest = Math.min(0.9 * cleanHz, HIGHEST_SHARE / piece.stepSeconds());
        return Arrays.stream(MULTIPLES)
                .map(m -> m * mainsHz)
                .filter(f -> !isWithin(SHORT_SHARE, f, cycleHz) && f < highest)
                .toArray();
    }

    /** Cosine and sine of time at the mains and at twice the mains, from coefficients that count from a block's start. */
    private double[] told(double[] hz, double[] c, double startSeconds) {
        double[] told = {Double.NaN, Double.NaN, Double.NaN, Double.NaN};
        for (int line = 0; line < hz.length; line++) {
            int at = hz[line] == mainsHz ? 0 : hz[line] == 2 * mainsHz ? 2 : -1;
            if (at >= 0) {
                double[] turned = turned(c[1 + 2 * line], c[2 + 2 * line], hz[line], startSeconds);
                told[at] = turned[0];
                told[at + 1] = turned[1];
            }
        }
        return told;
    }

    /** Coefficients that count from a time, as they are from time 0 on. */
    private static double[] turned(double cosine, double sine, double hz, double seconds) {
        double cycles = hz * seconds;
        double phase = TURN * (cycles - Math.floor(cycles));
        return new double[] {
            cosine * Math.cos(phase) - sine * Math.sin(phase), cosine * Math.sin(phase) + sine * Math.cos(phase)
        };
    }

    /** Pick-up put together from blocks that overlap. */
    private static final class Hum {
        private final double[] sum;
        private final double[] weights;

        Hum(int samples) {
            this.sum = new double[samples];
            this.weights = new double[samples];
        }

        /**
         * Takes it off.
         *
         * @param leastWeight below this weight less is taken off: at the ends, where one block alone tells of it
         */
        void takeOff(double[] volts, double leastWeight) {
            for (int i = 0; i < volts.length; i++) {
                volts[i] -= weights[i] > 0 ? sum[i] / Math.max(weights[i], leastWeight) : 0;
            }
        }
    }

    /** A constant and the lines' cosines and sines over one block, from its start on; the same for every block with these lines. */
    private static final class Waves {
        private final double[] hz;
        private final double[] window;

        /** Constant, then cosine and sine of each line, times the window. */
        private final double[][] weighted;

        private final NormalFit.Factor factor;

        Waves(double[] hz, int block, double stepSeconds) {
            this.hz = hz;
            this.window = new double[block];
            this.weighted = new double[1 + 2 * hz.length][block];
            NormalFit fit = new NormalFit(weighted.length);
            double[] row = new double[weighted.length];
            for (int i = 0; i < block; i++) {
                window[i] = 0.5 - 0.5 * Math.cos(TURN * (i + 0.5) / block);
                row[0] = 1;
                for (int line = 0; line < hz.length; line++) {
                    double cycles = hz[line] * i * stepSeconds;
                    double angle = TURN * (cycles - Math.floor(cycles));
                    row[1 + 2 * line] = Math.cos(angle);
                    row[2 + 2 * line] = Math.sin(angle);
                }
                double root = Math.sqrt(window[i]);
                for (int j = 0; j < row.length; j++) {
                    weighted[j][i] = window[i] * row[j];
                    row[j] *= root;
                }
                fit.add(row, 0);
            }
            this.factor = fit.factor();
        }

        double[] fit(double[] rest, int from) {
            double[] block = Arrays.copyOfRange(rest, from, from + window.length);
            double[] products = new double[weighted.length];
            for (int j = 0; j < products.length; j++) {
                products[j] = OrthogonalFit.dot(weighted[j], block);
            }
            return factor.solve(products);
        }

        /** Adds the fitted hum, without the constant, and the weight it has. */
        void add(double[] c, int from, Hum hum) {
            for (int i = 0; i < window.length; i++) {
                hum.weights[from + i] += window[i];
            }
            for (int line = 0; line < hz.length; line++) {
                double[] cosine = weighted[1 + 2 * line];
                double[] sine = weighted[2 + 2 * line];
                double a = c[1 + 2 * line];
                double b = c[2 + 2 * line];
                for (int i = 0; i < window.length; i++) {
                    hum.sum[from + i] += a * cosine[i] + b * sine[i];
                }
            }
        }
    }
}
