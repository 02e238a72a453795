package org.steadyshaft.speed;

import java.util.Arrays;
import java.util.List;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;

/**
 * What a whole, even wheel would have given in place of one with missing teeth. Where in the turn each tooth stands is the mean over the
 * turns; so every crossing tells the angle of the shaft, and between crossings, and through the breaks, a cubic does. From that come even
 * crossings, and a plain sine at the teeth's frequency, on which every later stage works as on any tacho.
 */
public final class EvenWheel {
    private static final double SAMPLES_A_PERIOD = 26;

    private final TurnBreaks.Found wheel;
    private final double durationSeconds;
    private final double[] seconds;
    private final double[] pitches;
    private final int[] rowFrom;

    /** @param wheel its turns are marked at least a few times */
    public EvenWheel(TurnBreaks.Found wheel, double durationSeconds) {
        this.wheel = wheel;
        this.durationSeconds = durationSeconds;
        double[] place = places();
        int size = wheel.cycles().crossings() - wheel.filled().size();
        double[] times = new double[size];
        double[] angles = new double[size];
        int[] rows = new int[wheel.cycles().segments() + 1];
        int at = 0;
        int used = 0;
        for (int row = 0; row < wheel.cycles().segments(); row++) {
            int mark = markIn(row);
            rows[used] = at;
            for (int i = wheel.cycles().firstOf(row);
                    mark >= 0 && i < wheel.cycles().endOf(row);
                    i++) {
                if (!wheel.filled().contains(i)) {
                    int from = i - mark;
                    int tooth = Math.floorMod(from, wheel.pitchesATurn());
                    times[at] = wheel.cycles().timeSeconds(i);
                    angles[at++] = from - tooth + place[tooth];
                }
            }
            used += mark >= 0 ? 1 : 0;
        }
        rows[used] = at;
        this.seconds = Arrays.copyOf(times, at);
        this.pitches = Arrays.copyOf(angles, at);
        this.rowFrom = Arrays.copyOf(rows, used + 1);
    }

    /** Index of a crossing of a row that begins a turn; -1 where the row has none. */
    private int markIn(int row) {
        for (int start : wheel.turnStarts()) {
            if (start >= wheel.cycles().firstOf(row) && start < wheel.cycles().endOf(row)) {
                return start;
            }
        }
        return -1;
    }

    /** Where each tooth stands in the turn, in pitches from the first behind the mark: the mean over the turns. */
    private double[] places() {
        int teeth = wheel.pitchesATurn();
        double[] sum = new double[teeth];
        int turns = 0;
        List<Integer> starts = wheel.turnStarts();
        for (int t = 0; t + 1 < starts.size(); t++) {
            int from = starts.get(t);
            if (starts.get(t + 1) - from == teeth) {
                double begin = wheel.cycles().timeSeconds(from);
                double turn = wheel.cycles().timeSeconds(from + teeth) - begin;
                for (int k = 0; k < teeth; k++) {
                    sum[k] += (wheel.cycles().timeSeconds(from + k) - begin) / turn * teeth;
                }
                turns++;
            }
        }
        for (int k = 0; k < teeth; k++) {
            sum[k] = turns > 0 ? sum[k] / turns : k;
        }
        return sum;
    }

    /** Crossings at whole pitches. */
    public CycleTimes cycles() {
        CycleTimes.Builder even = new CycleTimes.Builder();
        for (int row = 0; row + 1 < rowFrom.length; row++) {
            even.breakHere();
            int from = rowFrom[row];
            int to = rowFrom[row + 1];
            if (to - from < 4) {
                continue;
            }
            int at = from;
            double before = Double.NEGATIVE_INFINITY;
            for (double n = Math.ceil(pitches[from]); n <= pitches[to - 1]; n++) {
                while (at + 1 < to - 1 && pitches[at + 1] <= n) {
                    at++;
                }
                double time = between(pitches, seconds, at, from, to, n);
                if (time > before) {
                    even.add(time);
                    before = time;
                }
            }
        }
        return even.build();
    }

    /**
     * A sine that the even wheel gives; zero where no row tells the angle.
     *
     * @param amplitude its height
     */
    public KeptWaveform waveform(double amplitude) {
        double highest = 0;
        for (int row = 0; row + 1 < rowFrom.length; row++) {
            int from = rowFrom[row];
            int to = rowFrom[row + 1];
            for (int i = from + 4; i < to; i += 4) {
                highest = Math.max(highest, (pitches[i] - pitches[i - 4]) / (seconds[i] - seconds[i - 4]));
            }
        }
        double rateHz = SAMPLES_A_PERIOD * highest;
        long samples = Math.max(1, (long) Math.floor(durationSeconds * rateHz));
        return new KeptWaveform(rateHz, rateHz, samples, 0.4 * rateHz, durationSeconds, piece -> {
            long first = (long) piece * KeptWaveform.PIECE_SAMPLES;
            float[] made = new float[(int) Math.min(KeptWaveform.PIECE_SAMPLES, samples - first)];
            for (int i = 0; i < made.length; i++) {
                made[i] = (float) (amplitude * sineAt((first + i) / rateHz));
            }
            return made;
        });
    }

    private double sineAt(double time) {
        int found = Arrays.binarySearch(seconds, time);
        int at = found >= 0 ? found : -found - 2;
        int last = seconds.length - 1;
        if (last < 4) {
            return 0;
        }
        if (at < 0 || at >= last) {
            // beside the first and the last tooth that was seen the shaft is taken to turn on
            int near = at < 0 ? 0 : last;
            int other = at < 0 ? 4 : last - 4;
            double slope = (pitches[near] - pitches[other]) / (seconds[near] - seconds[other]);
            double beside = (time - seconds[near]) * slope;
            return Math.abs(beside) < 2 * wheel.pitchesATurn() ? Math.sin(2 * Math.PI * (pitches[near] + beside)) : 0;
        }
        int row = Arrays.binarySearch(rowFrom, at);
        row = row >= 0 ? row : -row - 2;
        int from = rowFrom[row];
        int to = rowFrom[row + 1];
        if (at + 1 >= to || to - from < 4) {
            return 0;
        }
        return Math.sin(2 * Math.PI * between(seconds, pitches, at, from, to, time));
    }

    /** The cubic through the four points around a place (Lagrange), within one row. */
    private static double between(double[] x, double[] y, int at, int from, int to, double place) {
        int first = Math.max(from, Math.min(to - 4, at - 1));
        double sum = 0;
        for (int i = first; i < first + 4; i++) {
            double product = y[i];
            for (int j = first; j < first + 4; j++) {
                product *= i == j ? 1 : (place - x[j]) / (x[i] - x[j]);
            }
            sum += product;
        }
        return sum;
    }
}
