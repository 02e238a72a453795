package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against plain loops over the samples. */
class SampleRowsTest {
    @ParameterizedTest
    @ValueSource(ints = {1, 7, 100, SampleRows.MOST_ROWS})
    void seesWhatAPlainLoopSees(int count) {
        Random random = new Random(count);
        double[] in = new double[2 + count * SampleRows.ROW];
        for (int i = 0; i < in.length; i++) {
            in[i] = random.nextInt(40) - 20;
        }
        SampleRows rows = new SampleRows();
        rows.look(in, 2, count);
        double largest = Double.NEGATIVE_INFINITY;
        double smallest = Double.POSITIVE_INFINITY;
        boolean run = false;
        for (int row = 0; row < count; row++) {
            double sum = 0;
            double most = 0;
            for (int i = 2 + row * SampleRows.ROW; i < 2 + (row + 1) * SampleRows.ROW; i++) {
                double second = Math.abs(in[i] - 2 * in[i - 1] + in[i - 2]);
                sum += second;
                most = Math.max(most, second);
                largest = Math.max(largest, in[i]);
                smallest = Math.min(smallest, in[i]);
                run |= in[i] == in[i - 1] && in[i - 1] == in[i - 2];
            }
            assertEquals(sum, rows.bend(row), 0, "sum of row " + row);
            assertEquals(most, rows.sharpest(row), 0, "largest of row " + row);
        }
        assertEquals(largest, rows.largest(count));
        assertEquals(smallest, rows.smallest(count));
        assertEquals(run, rows.holdsRun(count));
    }
}
