package org.steadyshaft.voltage;

/** What the model leaves of a piece. */
final class PieceRest {
    private PieceRest() {}

    /** v - theta' W - columns times their coefficients, one value a sample [volts]. */
    static double[] of(AnglePiece piece, TurnVoltage turn, Columns columns, double[] known) {
        double[] rest = new double[piece.samples()];
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
                double left = piece.volts[from + i] - piece.radPerSecond[from + i] * value[i];
                double[] row = rows[i];
                for (int j = 0; j < row.length; j++) {
                    left -= known[j] * row[j];
                }
                rest[from + i] = left;
            }
        }
        return rest;
    }
}
