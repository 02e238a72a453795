package org.steadyshaft.voltage;

import java.util.Arrays;
import org.hipparchus.complex.Complex;

/**
 * The columns' values at the samples of one block, with what the turn's voltage is there. Column after column, so that the loops run along
 * one index and need no sum that waits for itself. Working state of one thread, used again for block after block.
 */
final class ColumnBlock {
    private final AnglePiece piece;
    private final TurnVoltage turn;
    private final Columns columns;

    /** Angle, W and dW/dtheta at the block's samples. */
    final double[] angle = new double[Columns.BLOCK];

    final double[] value = new double[Columns.BLOCK];
    private final double[] slope = new double[Columns.BLOCK];

    /** Values: first index the column, second the sample of the block. */
    final double[][] column;

    private final double[] along = new double[Columns.BLOCK];
    private final double[] across = new double[Columns.BLOCK];

    /** Cosine and sine of a frequency's phase within a block that begins with phase 0. */
    private final Rotation[] rotations;

    private final Complex[] ofAngle;
    private final Complex[] ofLevel;

    ColumnBlock(AnglePiece piece, TurnVoltage turn, Columns columns) {
        this.piece = piece;
        this.turn = turn;
        this.columns = columns;
        this.column = new double[columns.count()][Columns.BLOCK];
        Arrays.fill(column[0], 1);
        this.rotations = new Rotation[columns.humHz().size() + columns.lineHz().size()];
        for (int j = 0; j < rotations.length; j++) {
            rotations[j] = new Rotation();
        }
        int lines = columns.lineHz().size();
        this.ofAngle = new Complex[lines];
        this.ofLevel = new Complex[lines];
        for (int j = 0; j < lines; j++) {
            ofAngle[j] = columns.response().angle(columns.lineHz().get(j));
            ofLevel[j] = columns.response().level(columns.lineHz().get(j));
        }
    }

    /** Fills the block that begins at a sample; how many samples it has. */
    int fill(int from) {
        int count = Math.min(Columns.BLOCK, piece.samples() - from);
        System.arraycopy(piece.angle, from, angle, 0, count);
        turn.fill(angle, value, slope, count);
        double at = piece.firstSeconds + from * piece.stepSeconds;
        Columns.Frequencies hum = columns.humHz();
        for (int j = 0; j < hum.size(); j++) {
            double phase = piece.tones().phase(hum.get(j), hum.multiple(j), at);
            rotations[j].turnBy(piece.turn(piece.tones(), hum.get(j), hum.multiple(j), at));
            int to = columns.hum(j);
            rotations[j].from(phase, column[to], column[to + 1], count);
        }
        Columns.Frequencies lines = columns.lineHz();
        for (int j = 0; j < lines.size(); j++) {
            double phase = piece.lines().phase(lines.get(j), lines.multiple(j), at);
            Rotation rotation = rotations[hum.size() + j];
            rotation.turnBy(piece.turn(piece.lines(), lines.get(j), lines.multiple(j), at));
            int to = columns.line(j);
            rotation.from(phase, column[to], column[to + 1], count);
            parts(piece.meanRadPerSecond / (2 * Math.PI * lines.get(j)), from, count);
            if (columns.response() == LineResponse.TRUE) {
                line(count, column[to], column[to + 1]);
            } else {
                line(ofAngle[j], ofLevel[j], count, column[to], column[to + 1]);
            }
        }
        return count;
    }

    /** What a unit of a line's angle, and one of its speed, give to the voltage. */
    private void parts(double share, int from, int count) {
        double[] radPerSecond = piece.radPerSecond;
        for (int i = 0; i < count; i++) {
            along[i] = share * slope[i] * radPerSecond[from + i];
            across[i] = piece.meanRadPerSecond * value[i];
        }
    }

    /** Makes of cosine and sine of a line's phase what a unit of each gives: d/dt [W d]. */
    private void line(int count, double[] cosine, double[] sine) {
        for (int i = 0; i < count; i++) {
            double c = cosine[i];
            double s = sine[i];
            cosine[i] = along[i] * c - across[i] * s;
            sine[i] = along[i] * s + across[i] * c;
        }
    }

    /** The same where angle and level come through turned and shrunk. */
    private void line(Complex angleShare, Complex levelShare, int count, double[] cosine, double[] sine) {
        double angleRe = angleShare.getRealPart();
        double angleIm = angleShare.getImaginaryPart();
        double levelRe = levelShare.getRealPart();
        double levelIm = levelShare.getImaginaryPart();
        for (int i = 0; i < count; i++) {
            double c = cosine[i];
            double s = sine[i];
            cosine[i] = along[i] * (angleRe * c - angleIm * s) - across[i] * (levelRe * s + levelIm * c);
            sine[i] = along[i] * (angleRe * s + angleIm * c) + across[i] * (levelRe * c - levelIm * s);
        }
    }

    /** Takes columns times their coefficients off values of the block's samples. */
    void takeOff(double[] coefficients, double[] values, int count) {
        for (int j = 0; j < coefficients.length; j++) {
            double factor = coefficients[j];
            double[] one = column[j];
            for (int i = 0; i < count; i++) {
                values[i] -= factor * one[i];
            }
        }
    }

    /** Copies the columns of each sample into a row: rows[sample][column]. */
    void toRows(double[][] rows, int count) {
        for (int j = 0; j < column.length; j++) {
            double[] one = column[j];
            for (int i = 0; i < count; i++) {
                rows[i][j] = one[i];
            }
        }
    }

    /** Turns on from sample to sample by an angle that seldom changes. */
    private static final class Rotation {
        private double turn = Double.NaN;
        private final double[] cos = new double[Columns.BLOCK];
        private final double[] sin = new double[Columns.BLOCK];

        /** Errors grow by 1e-16 a sample. */
        void turnBy(double rad) {
            if (rad == turn) {
                return;
            }
            turn = rad;
            double turnCos = Math.cos(rad);
            double turnSin = Math.sin(rad);
            double c = 1;
            double s = 0;
            for (int i = 0; i < cos.length; i++) {
                cos[i] = c;
                sin[i] = s;
                double next = c * turnCos - s * turnSin;
                s = s * turnCos + c * turnSin;
                c = next;
            }
        }

        void from(double phase, double[] cosine, double[] sine, int count) {
            double c = Math.cos(phase);
            double s = Math.sin(phase);
            for (int i = 0; i < count; i++) {
                cosine[i] = c * cos[i] - s * sin[i];
                sine[i] = s * cos[i] + c * sin[i];
            }
        }
    }
}
