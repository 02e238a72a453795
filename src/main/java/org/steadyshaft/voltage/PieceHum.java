package org.steadyshaft.voltage;

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
    private static final double BESIDE_HZ = 12;

    private static final double BESIDE_SHARE = 0.12;

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
        HumTrack track = new HumTrack(piece.firstSeconds() + 0.5 * block * piece.stepSeconds(), hop * piece.stepSeconds());
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
        double[] target = new double[n];
        for (int i = 0; i < n; i++) {
            target[i] = Math.sqrt(window[i]) * rest[from + i];
        }
        double fc = (piece.angle(from + n - 1) - piece.angle(from)) * piece.polePairs() / (TURN * (n - 1) * piece.stepSeconds());
        OrthogonalFit fit = new OrthogonalFit(target);
        double[] told = new double[4];
        double[] hz = new double[MULTIPLES.length];
        int lines = 0;
        double[] one = new double[n];
        for (int i = 0; i < n; i++) {
            one[i] = Math.sqrt(window[i]);
        }
        fit.add(one);
        for (double multiple : MULTIPLES) {
            double f = multiple * mainsHz;
            if (Math.abs(f - fc) > Math.max(BESIDE_HZ, BESIDE_SHARE * fc) && f < 0.9 * cleanHz) {
                hz[lines++] = f;
                fit.add(wave(f, from, window, 0));
                fit.add(wave(f, from, window, 0.25));
            }
        }
        double[] c = fit.coefficients();
        for (int line = 0; line < lines; line++) {
            addHum(hz[line], c[1 + 2 * line], c[2 + 2 * line], from, window, hum);
            int told0 = hz[line] == mainsHz ? 0 : hz[line] == 2 * mainsHz ? 2 : -1;
            if (told0 >= 0) {
                told[told0] = c[1 + 2 * line];
                told[told0 + 1] = c[2 + 2 * line];
            }
        }
        for (int i = 0; i < n; i++) {
            weights[from + i] += window[i];
        }
        return told;
    }

    private double[] wave(double f, int from, double[] window, double quarter) {
        double[] wave = new double[window.length];
        fill(f, from, quarter, wave);
        for (int i = 0; i < wave.length; i++) {
            wave[i] *= Math.sqrt(window[i]);
        }
        return wave;
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

    private void addHum(double f, double cosine, double sine, int from, double[] window, double[] hum) {
        double[] c = new double[window.length];
        double[] s = new double[window.length];
        fill(f, from, 0, c);
        fill(f, from, 0.25, s);
        for (int i = 0; i < window.length; i++) {
            hum[from + i] += window[i] * (cosine * c[i] + sine * s[i]);
        }
    }
}
