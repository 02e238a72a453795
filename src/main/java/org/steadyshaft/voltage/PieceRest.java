package org.steadyshaft.voltage;

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
        double[] angle = new double[Columns.BLOCK];
        double[] value = new double[Columns.BLOCK];
        double[] slope = new double[Columns.BLOCK];
        double[][] rows = new double[Columns.BLOCK][columns.count()];
        for (int from = 0; from < rest.length; from += Columns.BLOCK) {
            int count = Math.min(Columns.BLOCK, rest.length - from);
            System.arraycopy(piece.angle, from, angle, 0, count);
            turn.fill(angle, value, slope, count);
            columns.fill(piece, from, count, value, slope, rows);
            for (int i = 0; i < count; i++) {
                double speed = piece.radPerSecond[from + i];
                double left = left(piece.volts[from + i] - speed * value[i], known, rows[i]);
                addTo(right, left, rows[i]);
                table.add(table.at(angle[i]), speed * left);
                rest[from + i] = left;
            }
        }
        double[] turnRight = new double[2 * turn.orders()];
        table.sums(0, turnRight);
        return new PieceRest(rest, right, turnRight);
    }

    private static double left(double volts, double[] known, double[] row) {
        double left = volts;
        for (int j = 0; j < row.length; j++) {
            left -= known[j] * row[j];
        }
        return left;
    }

    private static void addTo(double[] right, double left, double[] row) {
        for (int j = 0; j < row.length; j++) {
            right[j] += left * row[j];
        }
    }
}
