package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.NormalFit;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.Smoothing;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * Steady swings of the speed in a piece, so that they hide no event: sought in the spectrum of the angle's slope, largest first. Each has
 * two amplitudes: as the angle series shows it, whose window shrinks fast ones, and as the waveform holds it.
 */
final class SpeedLines {
    private static final int MOST_LINES = 8;
    private static final double LOWEST_HZ = 4;

    /** Slower than this a line must be five times as large: the level of the search follows slow swings by itself. */
    private static final double SLOW_HZ = 20;

    /**
     * Swings fill the time: their robust deviation is about their rms or more. Below this share of it what is slow comes in single events,
     * and lines among it are the comb of their rhythm: they stay, so that the events are found as such.
     */
    private static final double LEAST_FILLING = 0.8;

    /**
     * A loop that hunts swings more slowly and far more: what such a swing bends within the windows of the search is no noise. It is taken out
     * where it is so large and the greater part of all that is slow. Our own figures.
     */
    private static final double LEAST_SWING_PERCENT = 0.8;

    private static final double SWING_SHARE = 0.5;

    /** So many periods of it in a piece at least. */
    private static final double SWING_PERIODS = 5;

    private static final int MOST_SWINGS = 2;
    private static final double SWING_SMOOTH_SECONDS = 0.1;

    private static final double SMOOTH_SECONDS = 0.02;

    private static final double LEAST_PERCENT = 0.05;
    private static final double LEAST_SLOW_PERCENT = 0.25;
    private static final double CLEAR = 8;
    private static final double LEAST_SURROUNDINGS_PERCENT = 0.006;
    private static final int SURROUNDINGS = 75;
    private static final double CLIP_PERCENT = 8;
    private static final double LEVEL_SECONDS = 0.5;
    private static final double LEAST_SAMPLES_A_PERIOD = 12;
    private static final int SHARPEN_STEPS = 3;
    private static final double TURN = 2 * Math.PI;

    private final VoltagePiece piece;
    private final AngleGrid grid;
    private final double percentAngle;
    private final List<Double> found = new ArrayList<>();

    /** The lines in the grid's angle, and in the angle at every sample [rad]. */
    final double[] onGrid;

    final double[] onSamples;

    SpeedLines(VoltagePiece piece, AngleGrid grid, double percentAngle) {
        this.piece = piece;
        this.grid = grid;
        this.percentAngle = percentAngle;
        this.onGrid = new double[grid.size()];
        this.onSamples = new double[piece.samples()];
        find();
        if (!found.isEmpty()) {
            toSamples();
        }
    }

    List<Double> frequenciesHz() {
        return found;
    }

    private void find() {
        int n = grid.size();
        double h = grid.stepSeconds;
        double[] rest = new double[n];
        for (int i = 1; i + 1 < n; i++) {
            rest[i] = (grid.angle[i + 1] - grid.angle[i - 1]) / (2 * h) / percentAngle;
        }
        rest[0] = rest[1];
        rest[n - 1] = rest[n - 2];
        double[] window = new double[n];
        for (int i = 0; i < n; i++) {
            window[i] = 0.5 - 0.5 * Math.cos(TURN * (i + 0.5) / n);
        }
        takeSwings(rest, window);
        double[] level = Smoothing.hann(rest, (int) Math.max(1, Math.round(0.5 * LEVEL_SECONDS / h)));
        for (int i = 0; i < n; i++) {
            rest[i] = Math.max(-CLIP_PERCENT, Math.min(CLIP_PERCENT, rest[i] - level[i]));
        }
        double lowestHz = isOfEvents(rest, SMOOTH_SECONDS) ? SLOW_HZ : LOWEST_HZ;
        int length = RealTransform.powerOfTwoFrom(n);
        RealTransform transform = new RealTransform(length);
        double bin = 1 / (length * h);
        double highest = Math.min(0.48 / h, 1.4 * piece.meanAngularSpeed() * piece.polePairs() / TURN);
        for (int line = 0; line < MOST_LINES; line++) {
            double[] f = amplitude(rest, window, transform);
            int best = largest(f, bin, lowestHz, highest);
            if (best == 0) {
                return;
            }
            double[] windowed = new double[n];
            for (int i = 0; i < n; i++) {
                windowed[i] = rest[i] * window[i];
            }
            take(rest, windowed, sharpen(windowed, best * bin, bin));
        }
    }

    /** Takes the swing of a loop that hunts out of the slope, with its largest overtone. */
    private void takeSwings(double[] slope, double[] window) {
        int n = slope.length;
        int length = RealTransform.powerOfTwoFrom(n);
        RealTransform transform = new RealTransform(length);
        double bin = 1 / (length * grid.stepSeconds);
        double lowestHz = SWING_PERIODS / (n * grid.stepSeconds);
        for (int swing = 0; swing < MOST_SWINGS; swing++) {
            double mean = Arrays.stream(slope).average().orElse(0);
            double[] rest = Arrays.stream(slope).map(y -> y - mean).toArray();
            double[] slow = slow(rest, SWING_SMOOTH_SECONDS);
            double[] f = amplitude(rest, window, transform);
            int best = (int) Math.ceil(lowestHz / bin);
            if (best * bin >= LOWEST_HZ || best >= f.length) {
                return;
            }
            for (int k = best; k * bin < LOWEST_HZ && k < f.length; k++) {
                best = f[k] > f[best] ? k : best;
            }
            double variance = Arrays.stream(slow).map(y -> y * y).average().orElse(0);
            if (f[best] < LEAST_SWING_PERCENT
                    || 0.5 * f[best] * f[best] < SWING_SHARE * variance
                    || isOfEvents(rest, SWING_SMOOTH_SECONDS)) {
                return;
            }
            double[] windowed = new double[n];
            for (int i = 0; i < n; i++) {
                windowed[i] = rest[i] * window[i];
            }
            take(slope, windowed, sharpen(windowed, best * bin, bin));
        }
    }

    private double[] slow(double[] rest, double seconds) {
        return Smoothing.hann(rest, (int) Math.max(1, Math.round(seconds / grid.stepSeconds)));
    }

    /** Whether the slow part of the speed comes in events rather than as a swing. */
    private boolean isOfEvents(double[] rest, double smoothSeconds) {
        double[] slow = slow(rest, smoothSeconds);
        double square = 0;
        for (double y : slow) {
            square += y * y;
        }
        return Robust.sigma(slow) < LEAST_FILLING * Math.sqrt(square / slow.length);
    }

    private static double[] amplitude(double[] rest, double[] window, RealTransform transform) {
        int n = rest.length;
        double[] data = new double[transform.length()];
        for (int i = 0; i < n; i++) {
            data[i] = rest[i] * window[i];
        }
        transform.forward(data);
        double[] power = new double[transform.length() / 2 + 1];
        transform.power(data, power);
        for (int k = 0; k < power.length; k++) {
            power[k] = 4.0 / n * Math.sqrt(power[k]);
        }
        return power;
    }

    private static int largest(double[] f, double bin, double lowestHz, double highest) {
        int best = 0;
        for (int k = (int) Math.ceil(lowestHz / bin); k < f.length && k * bin < highest; k++) {
            double least = k * bin < SLOW_HZ ? LEAST_SLOW_PERCENT : LEAST_PERCENT;
            if (f[k] >= least && (best == 0 || f[k] > f[best]) && f[k] > CLEAR * surroundings(f, k)) {
                best = k;
            }
        }
        return best;
    }

    private static double surroundings(double[] f, int k) {
        int from = Math.max(0, k - SURROUNDINGS);
        int to = Math.min(f.length, k + SURROUNDINGS + 1);
        return Math.max(LEAST_SURROUNDINGS_PERCENT, Robust.median(Arrays.copyOfRange(f, from, to)));
    }

    private double[] transformAt(double[] windowed, double hz) {
        double re = 0;
        double im = 0;
        double step = TURN * hz * grid.stepSeconds;
        double c = 1;
        double s = 0;
        double a = Math.cos(step);
        double b = Math.sin(step);
        for (double y : windowed) {
            re += y * c;
            im -= y * s;
            double next = c * a - s * b;
            s = c * b + s * a;
            c = next;
        }
        return new double[] {4 * re / windowed.length, 4 * im / windowed.length};
    }

    /** The frequency of most amplitude beside a bin's: the vertex of a parabola through its logarithm at three thirds of a bin. */
    private double sharpen(double[] windowed, double hz, double bin) {
        double step = bin / SHARPEN_STEPS;
        double[] size = new double[2 * SHARPEN_STEPS + 1];
        int best = 1;
        for (int i = 0; i < size.length; i++) {
            double[] c = transformAt(windowed, hz + (i - SHARPEN_STEPS) * step);
            size[i] = Math.log(Math.max(Double.MIN_NORMAL, Math.hypot(c[0], c[1])));
            best = i > 0 && i + 1 < size.length && size[i] > size[best] ? i : best;
        }
        double bend = size[best - 1] - 2 * size[best] + size[best + 1];
        double shift = bend < 0 ? 0.5 * (size[best - 1] - size[best + 1]) / bend : 0;
        return hz + (best - SHARPEN_STEPS + Math.max(-1, Math.min(1, shift))) * step;
    }

    private void take(double[] rest, double[] windowed, double hz) {
        double[] c = transformAt(windowed, hz);
        double h = grid.stepSeconds;
        double w = TURN * hz;
        double shrink = w * h / Math.sin(w * h);
        for (int i = 0; i < rest.length; i++) {
            double cos = Math.cos(w * i * h);
            double sin = Math.sin(w * i * h);
            rest[i] -= c[0] * cos - c[1] * sin;
            onGrid[i] += percentAngle * shrink / w * (c[0] * sin + c[1] * cos);
        }
        found.add(hz);
    }

    /** The lines at every sample: what the reference angle holds of them, and what it lacks by a fit in the waveform. */
    private void toSamples() {
        int lines = found.size();
        double[] seen = fitPlaces(onGrid, null);
        LocalSeries series = piece.series();
        double[] lack = new double[grid.size()];
        double[] weight = new double[grid.size()];
        double[] level = new double[grid.size()];
        int at = 0;
        for (int i = 0; i < lack.length; i++) {
            while (at + 1 < series.size() && series.timeSeconds(at + 1) <= grid.timeSeconds(i)) {
                at++;
            }
            lack[i] = series.lack(at);
            level[i] = series.level(at);
            weight[i] = Math.max(0, 1 - piece.polePairs() * Math.abs(lack[i]) / 0.3);
        }
        double[] inSeries = fitPlaces(lack, weight);
        double[] inWave = fitWave(weight, level);
        double[] cosine = new double[lines];
        double[] sine = new double[lines];
        for (int line = 0; line < lines; line++) {
            boolean fast = found.get(line) > SLOW_HZ;
            cosine[line] = seen[2 * line] + (fast ? inWave[2 * line] - inSeries[2 * line] : 0);
            sine[line] = seen[2 * line + 1] + (fast ? inWave[2 * line + 1] - inSeries[2 * line + 1] : 0);
        }
        Phasors phasors = new Phasors(found, piece.stepSeconds());
        phasors.turn(piece.firstSeconds() - grid.firstSeconds);
        for (int i = 0; i < onSamples.length; i++) {
            for (int line = 0; line < lines; line++) {
                onSamples[i] += cosine[line] * phasors.cosine(line) + sine[line] * phasors.sine(line);
            }
            phasors.step();
        }
    }

    private double[] fitPlaces(double[] values, double[] weight) {
        int lines = found.size();
        NormalFit fit = new NormalFit(2 * lines);
        Phasors phasors = new Phasors(found, grid.stepSeconds);
        double[] row = new double[2 * lines];
        for (int i = 0; i < values.length; i++) {
            double w = weight == null ? 1 : weight[i];
            for (int j = 0; j < lines; j++) {
                row[2 * j] = w * phasors.cosine(j);
                row[2 * j + 1] = w * phasors.sine(j);
            }
            fit.add(row, w * values[i]);
            phasors.step();
        }
        return fit.solve();
    }

    /** Every so many-th sample is enough: the lines span many thousands. */
    private double[] fitWave(double[] weight, double[] level) {
        int lines = found.size();
        double period = TURN / (piece.meanAngularSpeed() * piece.polePairs() * piece.stepSeconds());
        int stride = (int) Math.max(1, Math.floor(period / LEAST_SAMPLES_A_PERIOD));
        NormalFit fit = new NormalFit(2 * lines);
        Phasors phasors = new Phasors(found, stride * piece.stepSeconds());
        phasors.turn(piece.firstSeconds() - grid.firstSeconds);
        double[] row = new double[2 * lines];
        for (int i = 0; i < piece.samples(); i += stride) {
            int at = grid.nearest(piece.timeSeconds(i));
            double g = weight[at];
            double ofAngle = g * piece.angleBasis(i);
            double ofSpeed = g * piece.turnValue(i);
            for (int j = 0; j < lines; j++) {
                double w = TURN * found.get(j);
                row[2 * j] = ofAngle * phasors.cosine(j) - ofSpeed * w * phasors.sine(j);
                row[2 * j + 1] = ofAngle * phasors.sine(j) + ofSpeed * w * phasors.cosine(j);
            }
            fit.add(row, g * (piece.volts(i) - piece.levelBasis(i) * level[at]));
            phasors.step();
        }
        return fit.solve();
    }

    /** Cosine and sine of several frequencies at evenly spaced times, by rotation. */
    private static final class Phasors {
        private final double[] re;
        private final double[] im;
        private final double[] stepRe;
        private final double[] stepIm;
        private final List<Double> hz;

        Phasors(List<Double> hz, double stepSeconds) {
            this.hz = hz;
            int n = hz.size();
            re = new double[n];
            im = new double[n];
            stepRe = new double[n];
            stepIm = new double[n];
            Arrays.fill(re, 1);
            for (int j = 0; j < n; j++) {
                stepRe[j] = Math.cos(TURN * hz.get(j) * stepSeconds);
                stepIm[j] = Math.sin(TURN * hz.get(j) * stepSeconds);
            }
        }

        /** Sets the time [s]. */
        void turn(double seconds) {
            for (int j = 0; j < re.length; j++) {
                re[j] = Math.cos(TURN * hz.get(j) * seconds);
                im[j] = Math.sin(TURN * hz.get(j) * seconds);
            }
        }

        void step() {
            for (int j = 0; j < re.length; j++) {
                double next = re[j] * stepRe[j] - im[j] * stepIm[j];
                im[j] = re[j] * stepIm[j] + im[j] * stepRe[j];
                re[j] = next;
            }
        }

        double cosine(int j) {
            return re[j];
        }

        double sine(int j) {
            return im[j];
        }
    }
}
