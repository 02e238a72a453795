package org.steadyshaft.voltage;

import org.steadyshaft.numeric.RealTransform;

/**
 * Sums of products over one piece for the normal equations of v = theta' (W + dW) + columns: columns with columns, with the rest that the
 * present W leaves, and with the shaft orders. Products with orders come from a table over the turn's angle: each sample is added to the
 * bin of its angle, and the Fourier transform of the table gives all orders at once (the bins' width is made good). That costs one
 * addition a column and sample where the plain sums would cost two multiplications an order, column and sample.
 */
final class PieceSums {
    private static final double TURN = 2 * Math.PI;
    private static final int BINS_A_PERIOD = 8;

    final int columns;
    final int orders;

    /** Columns with columns, both triangles. */
    final double[][] square;

    /** Columns with the rest. */
    final double[] right;

    /** Row: column; entry 2 (k - 1): with theta' cos(k theta), the next with theta' sin(k theta). */
    final double[][] cross;

    /** The rest with theta' cos(k theta) and theta' sin(k theta). */
    final double[] turnRight;

    /** Sums of theta'^2 cos(k theta) and theta'^2 sin(k theta), k = 0 to 2 orders. */
    final double[] speedCosine;

    final double[] speedSine;
    final int samples;

    private final int bins;
    private final double[] table;

    private PieceSums(int columns, int orders, int samples) {
        this.columns = columns;
        this.orders = orders;
        this.samples = samples;
        this.square = new double[columns][columns];
        this.right = new double[columns];
        this.cross = new double[columns][2 * orders];
        this.turnRight = new double[2 * orders];
        this.speedCosine = new double[2 * orders + 1];
        this.speedSine = new double[2 * orders + 1];
        this.bins = RealTransform.powerOfTwoFrom(BINS_A_PERIOD * orders);
        this.table = new double[bins * (columns + 2)];
    }

    /** @param known coefficients of the columns that are taken off first */
    static PieceSums of(AnglePiece piece, TurnVoltage turn, Columns columns, double[] known) {
        double[] rest = new double[Columns.BLOCK];
        PieceSums sums = new PieceSums(columns.count(), turn.orders(), piece.samples());
        double[] angle = new double[Columns.BLOCK];
        double[] value = new double[Columns.BLOCK];
        double[] slope = new double[Columns.BLOCK];
        double[][] rows = new double[Columns.BLOCK][columns.count()];
        for (int from = 0; from < piece.samples(); from += Columns.BLOCK) {
            int count = Math.min(Columns.BLOCK, piece.samples() - from);
            System.arraycopy(piece.angle, from, angle, 0, count);
            turn.fill(angle, value, slope, count);
            columns.fill(piece, from, count, value, slope, rows);
            for (int i = 0; i < count; i++) {
                double left = piece.volts[from + i] - piece.radPerSecond[from + i] * value[i];
                double[] row = rows[i];
                for (int j = 0; j < row.length; j++) {
                    left -= known[j] * row[j];
                }
                rest[i] = left;
            }
            sums.addToTable(piece, from, count, rows, rest);
            sums.addSquares(rows, count);
            sums.addRight(rows, count, rest);
        }
        sums.transform();
        return sums;
    }

    private void addToTable(AnglePiece piece, int from, int count, double[][] rows, double[] rest) {
        int width = columns + 2;
        for (int i = 0; i < count; i++) {
            double turns = piece.angle[from + i] * (1 / TURN);
            int bin = Math.min(bins - 1, (int) ((turns - Math.floor(turns)) * bins));
            double speed = piece.radPerSecond[from + i];
            double[] row = rows[i];
            int at = bin * width;
            for (int j = 0; j < columns; j++) {
                table[at + j] += speed * row[j];
            }
            table[at + columns] += speed * rest[i];
            table[at + columns + 1] += speed * speed;
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

    private void addRight(double[][] rows, int count, double[] rest) {
        for (int i = 0; i < count; i++) {
            double left = rest[i];
            double[] row = rows[i];
            for (int j = 0; j < columns; j++) {
                right[j] += left * row[j];
            }
        }
    }

    private void transform() {
        int width = columns + 2;
        RealTransform transform = new RealTransform(bins);
        double[] one = new double[bins];
        for (int j = 0; j < width; j++) {
            for (int i = 0; i < bins; i++) {
                one[i] = table[i * width + j];
            }
            transform.forward(one);
            if (j < columns) {
                unpack(one, cross[j]);
            } else if (j == columns) {
                unpack(one, turnRight);
            } else {
                speedSums(one);
            }
        }
        for (int a = 0; a < columns; a++) {
            for (int b = 0; b < a; b++) {
                square[a][b] = square[b][a];
            }
        }
    }

    /** Sums with cos(k theta) and sin(k theta) from the transform of the table, whose entries stand at the bins' middles. */
    private void unpack(double[] packed, double[] sums) {
        for (int k = 1; k <= orders; k++) {
            double half = Math.PI * k / bins;
            double scale = half / Math.sin(half);
            double re = packed[2 * k] * scale;
            double im = packed[2 * k + 1] * scale;
            sums[2 * k - 2] = re * Math.cos(half) + im * Math.sin(half);
            sums[2 * k - 1] = re * Math.sin(half) - im * Math.cos(half);
        }
    }

    private void speedSums(double[] packed) {
        speedCosine[0] = packed[0];
        for (int k = 1; k <= 2 * orders; k++) {
            double half = Math.PI * k / bins;
            double scale = half / Math.sin(half);
            double re = packed[2 * k] * scale;
            double im = packed[2 * k + 1] * scale;
            speedCosine[k] = re * Math.cos(half) + im * Math.sin(half);
            speedSine[k] = re * Math.sin(half) - im * Math.cos(half);
        }
    }
}
