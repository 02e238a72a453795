package org.steadyshaft.voltage;

/**
 * Sums of products over one piece for the normal equations of v = theta' (W + dW) + columns: columns with columns and with the shaft
 * orders. Products with orders come from a table over the turn's angle: each sample is added to the
 * bin of its angle, and the Fourier transform of the table gives all orders at once (the bins' width is made good). That costs one
 * addition a column and sample where the plain sums would cost two multiplications an order, column and sample.
 */
final class PieceSums {

    final int columns;
    final int orders;

    /** Columns with columns, both triangles. */
    final double[][] square;

    /** Row: column; entry 2 (k - 1): with theta' cos(k theta), the next with theta' sin(k theta). */
    final double[][] cross;

    /** Sums of theta'^2 cos(k theta) and theta'^2 sin(k theta), k = 0 to 2 orders. */
    final double[] speedCosine;

    final double[] speedSine;
    final int samples;

    private final TurnTable table;

    private PieceSums(int columns, int orders, int samples) {
        this.columns = columns;
        this.orders = orders;
        this.samples = samples;
        this.square = new double[columns][columns];
        this.cross = new double[columns][2 * orders];
        this.speedCosine = new double[2 * orders + 1];
        this.speedSine = new double[2 * orders + 1];
        this.table = new TurnTable(orders, columns + 1);
    }

    static PieceSums of(AnglePiece piece, TurnVoltage turn, Columns columns) {
        PieceSums sums = new PieceSums(columns.count(), turn.orders(), piece.samples());
        ColumnBlock block = new ColumnBlock(piece, turn, columns);
        double[][] rows = new double[Columns.BLOCK][columns.count()];
        for (int from = 0; from < piece.samples(); from += Columns.BLOCK) {
            int count = block.fill(from);
            block.toRows(rows, count);
            sums.addToTable(piece, from, count, rows);
            sums.addSquares(rows, count);
        }
        sums.finish();
        return sums;
    }

    private void addToTable(AnglePiece piece, int from, int count, double[][] rows) {
        for (int i = 0; i < count; i++) {
            double speed = piece.radPerSecond[from + i];
            int at = table.at(piece.angle[from + i]);
            table.add(at, rows[i], speed);
            table.add(at + columns, speed * speed);
        }
    }

    /** Upper triangle, four samples at a time: the inner loop runs along a row and is vectorised. */
    private void addSquares(double[][] rows, int count) {
        int whole = count - count % 4;
        for (int i = 0; i < whole; i += 4) {
            addFour(rows[i], rows[i + 1], rows[i + 2], rows[i + 3]);
        }
        for (int i = whole; i < count; i++) {
            double[] row = rows[i];
            for (int a = 0; a < columns; a++) {
                double x = row[a];
                double[] into = square[a];
                for (int b = a; b < columns; b++) {
                    into[b] += x * row[b];
                }
            }
        }
    }

    private void addFour(double[] r0, double[] r1, double[] r2, double[] r3) {
        for (int a = 0; a < columns; a++) {
            double x0 = r0[a];
            double x1 = r1[a];
            double x2 = r2[a];
            double x3 = r3[a];
            double[] into = square[a];
            for (int b = a; b < into.length; b++) {
                into[b] += x0 * r0[b] + x1 * r1[b] + x2 * r2[b] + x3 * r3[b];
            }
        }
    }

    private void finish() {
        for (int j = 0; j < columns; j++) {
            table.sums(j, cross[j]);
        }
        table.cosinesAndSines(columns, speedCosine, speedSine);
        for (int a = 0; a < columns; a++) {
            for (int b = 0; b < a; b++) {
                square[a][b] = square[b][a];
            }
        }
    }
}
