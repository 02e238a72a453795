package org.steadyshaft.voltage;

import org.steadyshaft.numeric.RealTransform;

/**
 * Sums of values over the bins of the turn's angle, several columns at once. The Fourier transform of a column gives its sums of
 * products with cos(k theta) and sin(k theta) of all orders; that samples were put at the middles of their bins is made good.
 */
final class TurnTable {
    private static final double TURN = 2 * Math.PI;
    private static final int BINS_A_PERIOD = 8;

    private final int orders;
    private final int columns;
    private final int bins;
    private final double[] table;
    private final RealTransform transform;
    private final double[] one;

    TurnTable(int orders, int columns) {
        this.orders = orders;
        this.columns = columns;
        this.bins = RealTransform.powerOfTwoFrom(BINS_A_PERIOD * orders);
        this.table = new double[bins * columns];
        this.transform = new RealTransform(bins);
        this.one = new double[bins];
    }

    /** Place of the first column of the bin of an angle. */
    int at(double angle) {
        double turns = angle * (1 / TURN);
        return columns * Math.min(bins - 1, (int) ((turns - Math.floor(turns)) * bins));
    }

    void add(int at, double value) {
        table[at] += value;
    }

    void add(int at, double[] row, double factor) {
        for (int j = 0; j < row.length; j++) {
            table[at + j] += factor * row[j];
        }
    }

    /** Sums of a column with cos(k theta) at entry 2 (k - 1) and with sin(k theta) at the next. */
    void sums(int column, double[] sums) {
        transform(column);
        for (int k = 1; k <= orders; k++) {
            sums[2 * k - 2] = cosine(k);
            sums[2 * k - 1] = sine(k);
        }
    }

    /** Sums of a column with cos(k theta) and sin(k theta), k = 0 to twice the orders. */
    void cosinesAndSines(int column, double[] cosines, double[] sines) {
        transform(column);
        cosines[0] = one[0];
        for (int k = 1; k <= 2 * orders; k++) {
            cosines[k] = cosine(k);
            sines[k] = sine(k);
        }
    }

    private void transform(int column) {
        for (int i = 0; i < bins; i++) {
            one[i] = table[i * columns + column];
        }
        transform.forward(one);
    }

    private double cosine(int k) {
        double half = Math.PI * k / bins;
        return half / Math.sin(half) * (one[2 * k] * Math.cos(half) + one[2 * k + 1] * Math.sin(half));
    }

    private double sine(int k) {
        double half = Math.PI * k / bins;
        return half / Math.sin(half) * (one[2 * k] * Math.sin(half) - one[2 * k + 1] * Math.cos(half));
    }
}
