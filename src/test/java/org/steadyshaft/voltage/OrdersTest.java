package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrdersTest {
    private static final double SECONDS = 10;

    private static Orders steady(double shaftHz) {
        int count = 20000;
        double[] angle = new double[count];
        double[] speed = new double[count];
        for (int i = 0; i < count; i++) {
            angle[i] = 2 * Math.PI * shaftHz * i * SECONDS / count;
            speed[i] = 2 * Math.PI * shaftHz;
        }
        return new Orders(List.of(new AnglePiece(0, SECONDS / count, new double[count], angle, speed)), 8);
    }

    /** Under a Hann window: sin(pi n) / (pi n (1 - n^2)) for n turns apart. */
    @ParameterizedTest(name = "{0} turns apart")
    @CsvSource({"0.5, 3.584", "0.75, 1.889", "1, 1.3333", "2, 1", "5, 1"})
    void inflationByTurnsApart(double turns, double expected) {
        assertEquals(expected, steady(20).inflation(100 + turns / SECONDS), 0.01);
    }

    @Test
    void onAnOrderLineAndOrderAreOne() {
        assertTrue(steady(20).isOne(100));
        assertTrue(steady(20).isOne(100.05));
        assertFalse(steady(20).isOne(100.08));
        assertEquals(5, steady(20).nearest(100.2));
    }

    /** A skirt stands on both sides alike, a line on one. */
    @Test
    void aLineBesideAnOrderIsNoSkirt() {
        Orders orders = steady(20);
        assertTrue(orders.isSkirt(100.5, hz -> 1 / (0.01 + Math.abs(hz - 100))));
        assertFalse(orders.isSkirt(100.5, hz -> Math.abs(hz - 100.5) < 0.15 ? 100 : 1));
    }
}
