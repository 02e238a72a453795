package org.steadyshaft.voltage;

import java.util.Arrays;
import org.steadyshaft.numeric.NormalFit;

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
        double[] window = new double[block];
        for (int i = 0; i < block; i++) {
            window[i] = 0.5 - 0.5 * Math.cos(TURN * (i + 0.5) / block);
        }
        for (int from = 0; from + block <= n; from += hop) {
            track.add(fit(rest, from, window, hum, weights));
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

    /** Fits one block; adds the weighted hum and returns the coefficients of the first two lines. */
    private double[] fit(double[] rest, int from, double[] window, double[] hum, double[] weights) {
        int n = window.length;
        double fc = (piece.angle(from + n - 1) - piece.angle(from))
                * piece.polePairs()
                / (TURN * (n - 1) * piece.stepSeconds());
        double[] hz = Arrays.stream(MULTIPLES)
                .map(m -> m * mainsHz)
                .filter(f -> Math.abs(f - fc) > Math.max(BESIDE_HZ, BESIDE_SHARE * fc) && f < 0.9 * cleanHz)
                .toArray();
        double[][] waves = new double[2 * hz.length][n];
        for (int line = 0; line < hz.length; line++) {
            fill(hz[line], from, 0, waves[2 * line]);
            fill(hz[line], from, 0.25, waves[2 * line + 1]);
        }
        NormalFit fit = new NormalFit(waves.length + 1);
        double[] row = new double[waves.length + 1];
        for (int i = 0; i < n; i++) {
            double root = Math.sqrt(window[i]);
            row[0] = root;
            for (int j = 0; j < waves.length; j++) {
                row[j + 1] = root * waves[j][i];
            }
            fit.add(row, root * rest[from + i]);
        }
        double[] c = fit.solve();
        double[] told = new double[4];
        for (int line = 0; line < hz.length; line++) {
            int at = hz[line] == mainsHz ? 0 : hz[line] == 2 * mainsHz ? 2 : -1;
            if (at >= 0) {
                told[at] = c[1 + 2 * line];
                told[at + 1] = c[2 + 2 * line];
            }
        }
        for (int i = 0; i < n; i++) {
            double sum = 0;
            for (int j = 0; j < waves.length; j++) {
                sum += c[j + 1] * waves[j][i];
            }
            hum[from + i] += window[i] * sum;
            weights[from + i] += window[i];
        }
        return told;
    }

    /** cos(2 pi (f t - quarter)) by rotation from an exact start. */
    private void fill(double f, int from, double quarter, double[] wave) {
        double cycles = f * piece.timeSeconds(from) - quarter;
        double start = TURN * (cycles - Math.floor(cycles));
        double step = TURN * f * piece.stepSeconds();
        double re = Math.cos(start);
        double im = Math.sin(start);
        double a = Math.cos(step);
        double b = Math.sin(step);
        for (int i = 0; i < wave.length; i++) {
            wave[i] = re;
            double next = re * a - im * b;
            im = re * b + im * a;
            re = next;
        }
    }
}
