package org.steadyshaft.voltage;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;

/**
 * Cuts steady running into pieces in which the row of cycles is unbroken. A long recording is represented by pieces spread evenly over
 * it: what they show is known better than anybody needs, and the time it takes stays bounded.
 */
final class PieceCutter {
    /** Longest piece: tells lines an eighth of a hertz apart, and the mains' phase hardly wanders within it. */
    private static final double LONGEST_SECONDS = 16;

    /** Shorter pieces hold too few swings and turns. */
    private static final double SHORTEST_SECONDS = 1;

    private static final int FEWEST_TURNS = 6;

    /** Samples in all pieces together at most. */
    private static final int MOST_SAMPLES = 450_000;

    /** Usual running mean of the smooth angle: it follows swings up to about 2 Hz, and lines are read from the waveform from 3 Hz on. */
    static final double MEAN_SECONDS = 0.125;

    /** A slow shaft has no more to say between its turns: the mean is this share of a turn at least. */
    private static final double MEAN_TURNS = 0.25;

    /** At both ends of a row the smooth angle is loose. */
    private static final double EDGE_SECONDS = 0.15;

    private final KeptWaveform waveform;
    private final CycleTimes cycles;
    private final int polePairs;
    private final double meanSeconds;

    /** @param meanSeconds length of the smooth angle's running means */
    PieceCutter(KeptWaveform waveform, CycleTimes cycles, int polePairs, double meanSeconds) {
        this.meanSeconds = meanSeconds;
        this.waveform = waveform;
        this.cycles = cycles;
        this.polePairs = polePairs;
    }

    /**
     * Pieces of unbroken rows.
     *
     * @param pieces in order of time
     * @param row for each piece, which row it is from
     * @param slowest the smooth angle that follows least of a swing
     */
    record Cut(List<AnglePiece> pieces, List<Integer> row, Optional<SmoothAngle> slowest) {}

    Cut cut(List<Stretch> stretches) throws IOException {
        List<SmoothAngle> rows = new ArrayList<>();
        for (Stretch stretch : stretches) {
            for (int segment = 0; segment < cycles.segments(); segment++) {
                addRow(rows, stretch, segment);
            }
        }
        List<AnglePiece> pieces = new ArrayList<>();
        List<Integer> row = new ArrayList<>();
        double every = Math.max(1, samples(rows) / MOST_SAMPLES);
        double due = 0;
        for (int r = 0; r < rows.size(); r++) {
            SmoothAngle angle = rows.get(r);
            double from = angle.fromSeconds() + EDGE_SECONDS;
            double seconds = angle.toSeconds() - EDGE_SECONDS - from;
            int parts = (int) Math.ceil(seconds / LONGEST_SECONDS);
            for (int part = 0; part < parts; part++) {
                due -= 1;
                if (due < 0) {
                    due += every;
                    pieces.add(piece(angle, from + part * seconds / parts, from + (part + 1) * seconds / parts));
                    row.add(r);
                }
            }
        }
        return new Cut(pieces, row, rows.stream().max(Comparator.comparingDouble(SmoothAngle::turnSeconds)));
    }

    private double samples(List<SmoothAngle> rows) {
        return rows.stream().mapToDouble(r -> r.toSeconds() - r.fromSeconds()).sum() * waveform.rateHz();
    }

    private void addRow(List<SmoothAngle> rows, Stretch stretch, int segment) {
        int first = cycles.firstNotBefore(segment, stretch.fromSeconds());
        int end = cycles.firstNotBefore(segment, Math.nextUp(stretch.toSeconds()));
        if (end - first < (FEWEST_TURNS + 1) * polePairs + 4) {
            return;
        }
        double seconds = cycles.timeSeconds(end - 1) - cycles.timeSeconds(first);
        double turnSeconds = seconds * polePairs / (end - 1 - first);
        if (seconds < SHORTEST_SECONDS + 2 * EDGE_SECONDS + turnSeconds) {
            return;
        }
        double mean = Math.max(meanSeconds, MEAN_TURNS * turnSeconds);
        rows.add(SmoothAngle.through(cycles, first, end - first, polePairs, mean));
    }

    private AnglePiece piece(SmoothAngle smooth, double fromSeconds, double toSeconds) throws IOException {
        long first = Math.max(0, waveform.firstNotBefore(fromSeconds));
        int count = (int) (Math.min(waveform.samples(), waveform.firstNotBefore(toSeconds)) - first);
        double[] volts = new double[count];
        waveform.read(first, volts, count);
        double[] angle = new double[count];
        double[] radPerSecond = new double[count];
        smooth.fill(waveform.timeSeconds(first), 1 / waveform.rateHz(), angle, radPerSecond);
        return new AnglePiece(waveform.timeSeconds(first), 1 / waveform.rateHz(), volts, angle, radPerSecond);
    }
}
