package org.steadyshaft.voltage;

import java.util.Arrays;
import org.steadyshaft.numeric.NormalFit;
import org.steadyshaft.numeric.OrthogonalFit;

/**
 * Takes mains pick-up out of a piece: in blocks of half a second, cross-faded, sines at the mains and its multiples are fitted to what
 * level and slow angle do not explain. To be done while the angle is slow, or with what is known of the speed in it: a fast angle would
 * take the hum for speed. A line beside the tacho's own frequency is left in.
 */
final class PieceHum {
    private static final double BLOCK_SECONDS = 0.5;
    private static final double[] MULTIPLES = {1, 2, 3, 5};

    /** So near to the tacho, in Hz or as a share of it, a line of half a second cannot be told from the tacho. */
    private static final double BESIDE_HZ = 7;

    private static final double BESIDE_SHARE = 0.07;

    /** Level and angle are averaged over this time for it. */
    private static final double SLOW_SECONDS = 0.3;

    /** Lines above this share of the piece's rate are behind its low-pass. */
    private static final double HIGHEST_SHARE = 0.4;

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
        double[] rest = unexplained();
        int n = piece.samples();
        int block = (int) Math.max(16, Math.round(BLOCK_SECONDS / piece.stepSeconds()));
        int hop = block / 2;
        double[] hum = new double[n];
        double[] weights = new double[n];
        HumTrack track =
                new HumTrack(piece.firstSeconds() + 0.5 * block * piece.stepSeconds(), hop * piece.stepSeconds());
        Waves waves = null;
        for (int from = 0; from + block <= n; from += hop) {
            double[] hz = lines(from, block);
            if (waves == null || !Arrays.equals(waves.hz, hz)) {
                waves = new Waves(hz, block, piece.stepSeconds());
            }
            double[] c = waves.fit(rest, from);
            waves.add(c, from, hum, weights);
            track.add(told(hz, c, piece.timeSeconds(from)));
        }
        double[] clean = new double[n];
        for (int i = 0; i < n; i++) {
            clean[i] = piece.raw(i) - (weights[i] > 0 ? hum[i] / Math.max(weights[i], 0.05) : 0);
        }
        piece.setVolts(clean);
        piece.setHumTrack(track);
    }

    private double[] unexplained() {
        LocalSeries series = piece.series();
        int half = piece.halfWidth(SLOW_SECONDS);
        double[] level = Smoothing.hann(series.level, half);
        double[] lack = Smoothing.hann(series.lack, half);
        double[] levels = new double[piece.samples()];
        double[] lacks = new double[piece.samples()];
        new SeriesCubic(series.time, level, series.count).addTo(levels, piece.firstSeconds(), piece.stepSeconds());
        new SeriesCubic(series.time, lack, series.count).addTo(lacks, piece.firstSeconds(), piece.stepSeconds());
        double[] rest = new double[piece.samples()];
        for (int i = 0; i < rest.length; i++) {
            rest[i] = piece.raw(i) - levels[i] * (piece.levelBasis(i) + piece.angleBasis(i) * lacks[i]);
        }
        return rest;
    }

    /** Frequencies fitted in a block [Hz]. */
    private double[] lines(int from, int block) {
        double fc = (piece.angle(from + block - 1) - piece.angle(from))
                * piece.polePairs()
                / (TURN * (block - 1) * piece.stepSeconds());
        double highest = Math.min(0.9 * cleanHz, HIGHEST_SHARE / piece.stepSeconds());
        return Arrays.stream(MULTIPLES)
                .map(m -> m * mainsHz)
                .filter(f -> Math.abs(f - fc) > Math.max(BESIDE_HZ, BESIDE_SHARE * fc) && f < highest)
                .toArray();
    }

    /** Cosine and sine of time at the mains and at twice the mains, from coefficients that count from a block's start. */
    private double[] told(double[] hz, double[] c, double startSeconds) {
        double[] told = new double[4];
        for (int line = 0; line < hz.length; line++) {
            int at = hz[line] == mainsHz ? 0 : hz[line] == 2 * mainsHz ? 2 : -1;
            if (at >= 0) {
                double cycles = hz[line] * startSeconds;
                double start = TURN * (cycles - Math.floor(cycles));
                double re = c[1 + 2 * line];
                double im = c[2 + 2 * line];
                told[at] = re * Math.cos(start) - im * Math.sin(start);
                told[at + 1] = re * Math.sin(start) + im * Math.cos(start);
            }
        }
        return told;
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
        void add(double[] c, int from, double[] hum, double[] weights) {
            for (int i = 0; i < window.length; i++) {
                weights[from + i] += window[i];
            }
            for (int line = 0; line < hz.length; line++) {
                double[] cosine = weighted[1 + 2 * line];
                double[] sine = weighted[2 + 2 * line];
                double a = c[1 + 2 * line];
                double b = c[2 + 2 * line];
                for (int i = 0; i < window.length; i++) {
                    hum[from + i] += a * cosine[i] + b * sine[i];
                }
            }
        }
    }
}
