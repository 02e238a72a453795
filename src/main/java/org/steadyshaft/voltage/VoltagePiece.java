package org.steadyshaft.voltage;

import java.io.IOException;
import java.util.Arrays;
import java.util.BitSet;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.KeptWaveform;

/**
 * A piece of the waveform with the reference angle of the shaft at every sample, and what the voltage model makes of it. The reference
 * begins as the rough angle and is refined by what the local fits say it lacks. Working state of one thread; pieces are fixed by position,
 * so that the same recording gives the same figures whatever the number of threads.
 */
public final class VoltagePiece {
    private static final double TURN = 2 * Math.PI;

    /** Where the level is below this the lead counts as open. */
    public static final double OPEN_LEVEL = 0.2;

    /** A pole fits better if it leaves no more than this share (our own). */
    private static final double CLEARLY_LESS = 0.8;

    /** Samples of a piece that are looked at for choosing its pole. */
    private static final int MOST_LOOKS = 20_000;

    private final int polePairs;
    private final double firstSeconds;
    private final double stepSeconds;
    private final int count;
    private final double[] raw;
    private double[] volts;
    private final double[] angle;
    private final int[] grid;
    private final LocalSeries series;
    private final double cellSeconds;
    private HumTrack humTrack = new HumTrack(0, 1);

    /** theta' W, theta' W' and W at every sample. */
    final double[] levelBasis;

    final double[] angleBasis;
    private final double[] turnValue;
    double leastPower;

    /** The first samples behind places where the recorder lost its place: the reference may jump there, the shaft does not. */
    private final BitSet behindCut = new BitSet();

    /** Work space of the local fits. */
    private double[] fitSums = new double[0];

    private VoltagePiece(
            int polePairs, double firstSeconds, double stepSeconds, double[] raw, double[] angle, int cyclesACell) {
        this.polePairs = polePairs;
        this.firstSeconds = firstSeconds;
        this.stepSeconds = stepSeconds;
        this.count = raw.length;
        this.raw = raw;
        this.volts = raw;
        this.angle = angle;
        this.levelBasis = new double[count];
        this.angleBasis = new double[count];
        this.turnValue = new double[count];
        this.grid = quarters(angle, 4.0 * polePairs / (TURN * cyclesACell));
        this.series = new LocalSeries(grid.length - 2);
        for (int k = 0; k < series.count; k++) {
            series.time[k] = firstSeconds + (grid[k + 1] - 0.5) * stepSeconds;
        }
        double cycles = (angle[count - 1] - angle[0]) * polePairs / TURN;
        this.cellSeconds = cyclesACell * count * stepSeconds / Math.max(1, cycles);
    }

    /**
     * Reads a piece.
     *
     * @param rough the angle; the piece must lie inside one of its known stretches
     * @param stretch index of that stretch
     * @param first index of the first sample
     * @param samples how many; at least some cycles
     */
    public static VoltagePiece read(KeptWaveform waveform, RoughAngle rough, int stretch, long first, int samples)
            throws IOException {
        double step = 1 / waveform.rateHz();
        double cycleHz = fastest(rough, stretch, waveform.timeSeconds(first), samples * step);
        Lowered lowered = Lowered.of(waveform, first, samples, cycleHz);
        double[] angle = new double[lowered.values().length];
        rough.fill(stretch, lowered.firstSeconds(), lowered.stepSeconds(), angle, angle.length);
        double seconds = (angle.length - 1) * lowered.stepSeconds();
        double hz = (angle[angle.length - 1] - angle[0]) * rough.polePairs() / (TURN * seconds);
        int cycles = (int) Math.max(1, Math.round(hz / LocalFitter.MOST_CELLS_A_SECOND));
        return new VoltagePiece(
                rough.polePairs(), lowered.firstSeconds(), lowered.stepSeconds(), lowered.values(), angle, cycles);
    }

    /** The tacho's highest frequency in a piece [Hz], looked at in many short parts of it. */
    private static double fastest(RoughAngle rough, int stretch, double fromSeconds, double seconds) {
        int looks = 64;
        double[] angle = new double[looks + 1];
        rough.fill(stretch, fromSeconds, seconds / looks, angle, looks + 1);
        double most = 0;
        for (int i = 0; i < looks; i++) {
            most = Math.max(most, angle[i + 1] - angle[i]);
        }
        return most * looks / seconds * rough.polePairs() / TURN;
    }

    private static int[] quarters(double[] angle, double quartersARadian) {
        int[] starts = new int[angle.length + 1];
        int size = 0;
        starts[size++] = 0;
        double from = Math.floor(angle[0] * quartersARadian);
        double now = from;
        for (int i = 1; i < angle.length; i++) {
            double quarter = angle[i] * quartersARadian;
            if (quarter >= now + 1) {
                starts[size++] = i;
                now = Math.floor(quarter);
            }
        }
        starts[size++] = angle.length;
        return Arrays.copyOf(starts, size);
    }

    /** Sets what the turn's voltage gives at the reference angle. */
    public void look(TurnVoltage turn) {
        turn.fill(angle, turnValue, angleBasis, count);
        for (int i = 0; i < count; i++) {
            double speed = angularSpeed(i);
            levelBasis[i] = speed * turnValue[i];
            angleBasis[i] *= speed;
        }
        double typical = turn.rms() * (angle[count - 1] - angle[0]) / (count * stepSeconds);
        leastPower = 1e-10 * typical * typical;
    }

    /** Fits angle, level and offset place by place; {@link #look} must have gone before. */
    public void fit() {
        if (fitSums.length == 0) {
            fitSums = new double[LocalFitter.SUMS * (grid.length - 1)];
        }
        LocalFitter.fit(this, grid, volts, fitSums, series);
        for (int k = 0; k < series.count; k++) {
            int i = grid[k + 1];
            series.angle[k] = 0.5 * (angle[i] + angle[i - 1]) + series.lack[k];
        }
    }

    /** Adds to the reference what it lacks, smoothed over so many seconds; where the lead is open it is drawn across. */
    public void refine(double seconds) {
        double[] lack = series.lack.clone();
        bridgeOpen(lack);
        add(Smoothing.hann(lack, halfWidth(seconds)));
    }

    /** Adds to the reference an angle given at the places of the series. */
    void add(double[] atPlaces) {
        SeriesCubic cubic = new SeriesCubic(series.time, atPlaces, series.count);
        cubic.addTo(angle, firstSeconds, stepSeconds);
    }

    /** The reference at every sample [rad] with what it lacks; where the lead is open drawn across. */
    public double[] followedAngle() {
        double[] lack = series.lack.clone();
        bridgeOpen(lack);
        double[] followed = angle.clone();
        new SeriesCubic(series.time, lack, series.count).addTo(followed, firstSeconds, stepSeconds);
        return followed;
    }

    /** Largest angle that the reference lacks [rad of the tacho's cycle], where the lead is not open. */
    double mostLack() {
        double most = 0;
        for (int k = 0; k < series.count; k++) {
            most = series.level[k] < OPEN_LEVEL ? most : Math.max(most, Math.abs(series.lack[k]));
        }
        return polePairs * most;
    }

    /** The same of the lack averaged over so many seconds. */
    double mostSlowLack(double seconds) {
        double[] lack = series.lack.clone();
        bridgeOpen(lack);
        double most = 0;
        for (double slow : Smoothing.hann(lack, halfWidth(seconds))) {
            most = Math.max(most, Math.abs(slow));
        }
        return polePairs * most;
    }

    private void bridgeOpen(double[] values) {
        int last = -1;
        for (int k = 0; k <= series.count; k++) {
            boolean shut = k < series.count && series.level[k] < OPEN_LEVEL;
            if (shut) {
                continue;
            }
            for (int j = last + 1; j < Math.min(k, series.count); j++) {
                double left = last < 0 ? (k < series.count ? values[k] : 0) : values[last];
                double right = k < series.count ? values[k] : left;
                values[j] = left + (right - left) * (j - last) / (k - last);
            }
            last = k;
        }
    }

    /** Half width in places of a smoothing over so many seconds. */
    public int halfWidth(double seconds) {
        return (int) Math.max(1, Math.round(0.5 * seconds / quarterSeconds()));
    }

    /** Adds the waveform to the average over a turn, where the level of the last fit is as usual. */
    public void learn(TurnAverage average) {
        double usual = Robust.median(series.level);
        int place = 0;
        for (int i = 0; i < count; i++) {
            while (place < series.count - 1 && grid[place + 2] <= i) {
                place++;
            }
            if (Math.abs(series.level[place] - usual) < 0.4 * usual) {
                average.add(angle[i], volts[i], angularSpeed(i));
            }
        }
    }

    /** The same before anything was fitted: everything counts. */
    public void learnAll(TurnAverage average) {
        for (int i = 0; i < count; i++) {
            average.add(angle[i], volts[i], angularSpeed(i));
        }
    }

    /** Slope of the reference between the neighbours of a sample, of which none is beyond a cut. */
    private double angularSpeed(int sample) {
        int a = sample == 0 || behindCut.get(sample) ? sample : sample - 1;
        int b = sample == count - 1 || behindCut.get(sample + 1) ? sample : sample + 1;
        return a < b ? (angle[b] - angle[a]) / ((b - a) * stepSeconds) : meanAngularSpeed();
    }

    /** Turns the reference by whole poles. */
    public void turnBy(int poles) {
        double by = poles * TURN / polePairs;
        for (int i = 0; i < count; i++) {
            angle[i] += by;
        }
    }

    /**
     * Puts another reference in place of the present one.
     *
     * @param cutSeconds where it may jump
     */
    void setAngle(double[] other, double[] cutSeconds) {
        System.arraycopy(other, 0, angle, 0, count);
        behindCut.clear();
        for (double cut : cutSeconds) {
            int behind = firstBehind(cut);
            if (behind > 0 && behind < count) {
                behindCut.set(behind);
            }
        }
    }

    /** Index of the first sample at or behind a time. */
    private int firstBehind(double seconds) {
        return (int) Math.max(0, Math.min(count, Math.ceil((seconds - firstSeconds) / stepSeconds)));
    }

    void setHumTrack(HumTrack track) {
        humTrack = track;
    }

    /** The pick-up that was taken out, block by block. */
    public HumTrack humTrack() {
        return humTrack;
    }

    /** Puts the hum-free waveform in place of the raw one. */
    void setVolts(double[] clean) {
        volts = clean;
    }

    /** The pole, 0 to p - 1, from which the turn's voltage explains most; looked at in samples spread over the piece. */
    int bestPole(TurnVoltage turn) {
        double[] left = unexplained(turn, 0, count, Math.max(1, count / MOST_LOOKS));
        int best = 0;
        for (int pole = 1; pole < polePairs; pole++) {
            best = left[pole] < left[best] ? pole : best;
        }
        return best;
    }

    /** Turns a part of the reference by the whole poles with which the turn's voltage explains clearly more of it; short parts stay. */
    void turnToBestPole(TurnVoltage turn, double fromSeconds, double toSeconds) {
        int from = firstBehind(fromSeconds);
        int to = firstBehind(toSeconds);
        if (to - from < 4 || angle[to - 1] - angle[from] < TURN) {
            return;
        }
        double[] left = unexplained(turn, from, to, 1);
        int best = 0;
        for (int pole = 1; pole < polePairs; pole++) {
            best = left[pole] < left[best] ? pole : best;
        }
        if (left[best] < CLEARLY_LESS * left[0]) {
            for (int i = from; i < to; i++) {
                angle[i] += best * TURN / polePairs;
            }
        }
    }

    /** For each pole that the reference may count from: the share of the waveform's energy that level alone leaves. */
    private double[] unexplained(TurnVoltage turn, int from, int to, int stride) {
        double[] left = new double[polePairs];
        for (int pole = 0; pole < polePairs; pole++) {
            left[pole] = unexplained(turn, from, to, stride, pole * TURN / polePairs);
        }
        return left;
    }

    private double unexplained(TurnVoltage turn, int from, int to, int stride, double by) {
        double square = 0;
        double cross = 0;
        double model = 0;
        for (int i = Math.max(1, from); i + 1 < to; i += stride) {
            double v = volts[i];
            double b = turn.value(angle[i] + by) * (angle[i + 1] - angle[i - 1]);
            square += v * v;
            cross += v * b;
            model += b * b;
        }
        return square > 0 && model > 0 ? 1 - cross * Math.abs(cross) / (square * model) : 1;
    }

    /** Median of the residual's mean square over the places. */
    public double noisePower() {
        return Robust.median(series.power);
    }

    public LocalSeries series() {
        return series;
    }

    public int polePairs() {
        return polePairs;
    }

    public int samples() {
        return count;
    }

    public double firstSeconds() {
        return firstSeconds;
    }

    public double stepSeconds() {
        return stepSeconds;
    }

    public double timeSeconds(int sample) {
        return firstSeconds + sample * stepSeconds;
    }

    /** Mean length of a cell [s]. */
    public double cellSeconds() {
        return cellSeconds;
    }

    /** Mean distance of two places [s]. */
    public double quarterSeconds() {
        return 0.25 * cellSeconds;
    }

    /** Mean angular speed over the piece [rad/s]. */
    public double meanAngularSpeed() {
        return (angle[count - 1] - angle[0]) / ((count - 1) * stepSeconds);
    }

    /** The reference angle at a sample [rad]. */
    public double angle(int sample) {
        return angle[sample];
    }

    /** The waveform, hum taken out. */
    public double volts(int sample) {
        return volts[sample];
    }

    /** The waveform as it was recorded. */
    public double raw(int sample) {
        return raw[sample];
    }

    /** What a level of 1 gives at a sample. */
    public double levelBasis(int sample) {
        return levelBasis[sample];
    }

    /** What a radian more gives at a sample. */
    public double angleBasis(int sample) {
        return angleBasis[sample];
    }

    public double turnValue(int sample) {
        return turnValue[sample];
    }
}
