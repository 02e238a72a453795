package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The fit as it grows: pieces, the turn's voltage, columns and their coefficients so far. A step solves all unknowns jointly about the
 * present ones (Gauss and Newton; the model bends only where W and a line multiply). Pieces are worked on side by side; sums are joined in
 * their order, so the result does not depend on the number of threads.
 */
final class VoltageFit {
    /** A line whose angle swings by more than this [rad of a tacho cycle] is put into the angle: beyond, its own bend shows. */
    private static final double LARGE_SWING = 0.02;

    /** A change of W smaller than this share of it changes no line by more than its square: no more steps are needed. */
    private static final double STILL = 3e-4;

    /** Where samples fall on few angles of the turn, the sums' bins lead less straight to the end. */
    private static final int MOST_STEPS = 4;

    /** A noise that is no more than so many times another weighs the same. */
    private static final double ALIKE = 1.1;

    private final List<AnglePiece> pieces;
    private final int polePairs;
    private final TurnMemory memory;
    private TurnVoltage turn;
    private Columns columns;
    private List<double[]> known = new ArrayList<>();
    private List<double[]> bent = new ArrayList<>();
    private List<PieceRest> rests = new ArrayList<>();
    private List<double[]> variance = new ArrayList<>();
    private List<double[]> inflation = new ArrayList<>();
    private List<double[]> inflationByColumns = new ArrayList<>();
    private double restVariance;

    VoltageFit(List<AnglePiece> pieces, int polePairs, TurnVoltage turn) {
        this(pieces, polePairs, turn, TurnMemory.none(turn.orders()));
    }

    /** @param memory what is known of the turn beforehand */
    VoltageFit(List<AnglePiece> pieces, int polePairs, TurnVoltage turn, TurnMemory memory) {
        this.memory = memory;
        this.pieces = pieces;
        this.polePairs = polePairs;
        this.turn = turn;
        this.columns = new Columns(Columns.Frequencies.NONE, Columns.Frequencies.NONE);
        for (AnglePiece piece : pieces) {
            double[] offset = new double[1];
            for (double v : piece.volts) {
                offset[0] += v / piece.samples();
            }
            known.add(offset);
            bent.add(new double[0]);
        }
        renewRests();
    }

    TurnMemory memory() {
        return memory;
    }

    TurnVoltage turn() {
        return turn;
    }

    Columns columns() {
        return columns;
    }

    List<AnglePiece> pieces() {
        return pieces;
    }

    List<double[]> rests() {
        return rests.stream().map(r -> r.rest).toList();
    }

    /** Mean square of the rest [volts squared], what the unknowns take of it made good. */
    double restVariance() {
        return restVariance;
    }

    /** Coefficient of a column in a piece. */
    double coefficient(int piece, int column) {
        return known.get(piece)[column];
    }

    /** Cosine part of a speed line in a piece, that in the angle included; the sine's is the one with part 1. */
    double line(int piece, int line, int part) {
        return known.get(piece)[columns.line(line) + part] + bent.get(piece)[2 * line + part];
    }

    /** Mean of the variances of a pair of columns, for noise of variance 1. */
    double variance(int piece, int column) {
        return 0.5 * (variance.get(piece)[column] + variance.get(piece)[column + 1]);
    }

    /** By how much the other columns alone would make the variance larger, if the turn's voltage were known; worst piece. */
    double inflationByColumns(int column) {
        return inflationByColumns.stream()
                .mapToDouble(i -> 0.5 * (i[column] + i[column + 1]))
                .max()
                .orElse(1);
    }

    double inflation(int piece, int column) {
        return 0.5 * (inflation.get(piece)[column] + inflation.get(piece)[column + 1]);
    }

    /** Changes the columns; coefficients of those that stay are kept, lines in the angle must stay. */
    void use(Columns next) {
        List<double[]> moved = new ArrayList<>();
        List<double[]> movedBent = new ArrayList<>();
        for (int p = 0; p < pieces.size(); p++) {
            double[] values = new double[next.count()];
            double[] angles = new double[2 * next.lineHz().size()];
            values[0] = known.get(p)[0];
            for (int j = 0; j < Math.min(columns.humHz().size(), next.humHz().size()); j++) {
                copy(known.get(p), columns.hum(j), values, next.hum(j));
            }
            for (int j = 0; j < Math.min(columns.lineHz().size(), next.lineHz().size()); j++) {
                copy(known.get(p), columns.line(j), values, next.line(j));
                copy(bent.get(p), 2 * j, angles, 2 * j);
            }
            moved.add(values);
            movedBent.add(angles);
        }
        columns = next;
        known = moved;
        bent = movedBent;
    }

    private static void copy(double[] from, int at, double[] to, int into) {
        to[into] = from[at];
        to[into + 1] = from[at + 1];
    }

    /**
     * Steps until the turn's voltage stands still. How the columns stand to one another is worked out once: a change of W moves the end by
     * nothing, since there the rest has nothing left of any column.
     */
    void settle() {
        List<PieceSums> sums = IntStream.range(0, pieces.size())
                .parallel()
                .mapToObj(p -> PieceSums.of(pieces.get(p), turn, columns))
                .toList();
        double weighed = settle(sums);
        // what is known beforehand is weighed against the noise, and what is left shows less and less beside it
        for (int again = 1; again < MOST_STEPS && memory.recordings() > 0 && weighed > ALIKE * restVariance; again++) {
            weighed = settle(sums);
        }
    }

    /** Against which noise the memory was weighed [volts squared]. */
    private double settle(List<PieceSums> sums) {
        double noise = restVariance;
        JointFit fit = new JointFit(sums, memory, noise);
        variance = fit.variance;
        inflation = fit.inflation;
        inflationByColumns = fit.inflationByColumns;
        renewRests();
        double change = step(fit);
        for (int more = 1; more < MOST_STEPS && change > STILL; more++) {
            change = step(fit);
        }
        return noise;
    }

    /** One joint step; by how much it changed the turn's voltage, as a share of it. */
    private double step(JointFit fit) {
        JointFit.Step step = fit.step(rests, turn);
        double[] cosine = new double[turn.orders()];
        double[] sine = new double[turn.orders()];
        for (int k = 1; k <= turn.orders(); k++) {
            cosine[k - 1] = turn.cosine(k) + step.turn[2 * k - 2];
            sine[k - 1] = turn.sine(k) + step.turn[2 * k - 1];
        }
        double squares = 0;
        for (double part : step.turn) {
            squares += part * part;
        }
        turn = TurnVoltage.of(cosine, sine);
        double change = Math.sqrt(0.5 * squares) / Math.max(turn.rms(), Double.MIN_NORMAL);
        for (int p = 0; p < pieces.size(); p++) {
            for (int j = 0; j < columns.count(); j++) {
                known.get(p)[j] += step.columns.get(p)[j];
            }
        }
        renewRests();
        return change;
    }

    private void renewRests() {
        rests = IntStream.range(0, pieces.size())
                .parallel()
                .mapToObj(p -> PieceRest.of(pieces.get(p), turn, columns, known.get(p)))
                .toList();
        double squares = 0;
        double samples = -2.0 * turn.orders();
        for (PieceRest one : rests) {
            for (double r : one.rest) {
                squares += r * r;
            }
            samples += one.rest.length - columns.count();
        }
        restVariance = squares / Math.max(1, samples);
    }

    /** Puts lines of some size into the angle, where they are exact at any size. Whether there was one. */
    boolean bend() {
        boolean any = false;
        for (int j = 0; j < columns.lineHz().size(); j++) {
            double hz = columns.lineHz().get(j);
            double largest = 0;
            for (int p = 0; p < pieces.size(); p++) {
                double amplitude = Math.hypot(known.get(p)[columns.line(j)], known.get(p)[columns.line(j) + 1]);
                largest = Math.max(largest, amplitude * pieces.get(p).meanRadPerSecond / (2 * Math.PI * hz));
            }
            if (polePairs * largest > LARGE_SWING) {
                any = true;
                bend(j, hz);
            }
        }
        return any;
    }

    private void bend(int line, double hz) {
        for (int p = 0; p < pieces.size(); p++) {
            int column = columns.line(line);
            double[] values = known.get(p);
            pieces.get(p).bend(hz, columns.lineHz().multiple(line), values[column], values[column + 1]);
            bent.get(p)[2 * line] += values[column];
            bent.get(p)[2 * line + 1] += values[column + 1];
            values[column] = 0;
            values[column + 1] = 0;
        }
    }
}
