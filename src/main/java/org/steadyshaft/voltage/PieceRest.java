package org.steadyshaft.voltage;

import org.steadyshaft.numeric.OrthogonalFit;

/** What the model leaves of a piece, and its sums of products with the columns and with the shaft orders. Plain arrays for the inner loops. */
final class PieceRest {
    /** v - theta' W - columns times their coefficients, one value a sample [volts]. */
    final double[] rest;

    /** With each column. */
    final double[] right;

    /** With theta' cos(k theta) at entry 2 (k - 1), with theta' sin(k theta) at the next. */
    final double[] turnRight;

    private PieceRest(double[] rest, double[] right, double[] turnRight) {
        this.rest = rest;
        this.right = right;
        this.turnRight = turnRight;
    }

    static PieceRest of(AnglePiece piece, TurnVoltage turn, Columns columns, double[] known) {
        double[] rest = new double[piece.samples()];
        double[] right = new double[columns.count()];
        TurnTable table = new TurnTable(turn.orders(), 1);
        ColumnBlock block = new ColumnBlock(piece, turn, columns);
        double[] left = new double[Columns.BLOCK];
        for (int from = 0; from < rest.length; from += Columns.BLOCK) {
            int count = block.fill(from);
            for (int i = 0; i < count; i++) {
                left[i] = piece.volts[from + i] - piece.radPerSecond[from + i] * block.value[i];
            }
            block.takeOff(known, left, count);
            for (int j = 0; j < right.length; j++) {
                right[j] += OrthogonalFit.dot(block.column[j], left, count);
            }
            for (int i = 0; i < count; i++) {
                table.add(table.at(block.angle[i]), piece.radPerSecond[from + i] * left[i]);
            }
            System.arraycopy(left, 0, rest, from, count);
        }
        double[] turnRight = new double[2 * turn.orders()];
        table.sums(0, turnRight);
        return new PieceRest(rest, right, turnRight);
    }
}
