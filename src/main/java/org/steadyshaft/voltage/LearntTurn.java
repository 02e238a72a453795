package org.steadyshaft.voltage;

import java.util.HashSet;
import java.util.Objects;
import java.util.Set;

/**
 * The voltage of a turn as one recording has it, for other recordings of the same tacho.
 *
 * @param polePairs pole pairs of the tacho
 * @param turn the voltage; its angle begins anywhere
 * @param swung orders that ripple at the mains or twice the mains may have changed
 * @param touched those, and orders on which pick-up may stand: not to be trusted
 */
public record LearntTurn(int polePairs, TurnOrders turn, Set<Integer> swung, Set<Integer> touched) {
    /** Multiples at which the mains swings the speed much; higher ones are too small to be taken for uneven poles. */
    private static final int[] SPEED_MULTIPLES = {1, 2};

    public LearntTurn {
        Objects.requireNonNull(turn, "turn");
        swung = Set.copyOf(swung);
        touched = Set.copyOf(touched);
        if (polePairs < 1 || turn.orders() < polePairs) {
            throw new IllegalArgumentException("turn of " + turn.orders() + " orders, " + polePairs + " pole pairs");
        }
    }

    /** A turn of which nothing is to be trusted. */
    static LearntTurn untrusted(int polePairs, TurnOrders turn) {
        Set<Integer> all = new HashSet<>();
        for (int order = 1; order <= turn.orders(); order++) {
            all.add(order);
        }
        return new LearntTurn(polePairs, turn, all, all);
    }

    /** Whether an order is the magnet's alone. */
    boolean isClear(int order) {
        return order <= turn.orders() && !touched.contains(order);
    }

    /**
     * A turn as a recording has it.
     *
     * @param unsure share by which the mains may be off
     * @param told multiples whose line of the speed was told beside the orders
     * @param fitted multiples that were fitted as pick-up beside the orders
     */
    static LearntTurn of(
            TurnOrders turn, Orders orders, double mainsHz, double unsure, Set<Integer> told, Set<Integer> fitted) {
        Set<Integer> swung = swung(turn.orders(), orders, mainsHz, unsure, told);
        Set<Integer> touched = new HashSet<>(swung);
        for (int multiple = 1; multiple * mainsHz <= (turn.orders() + 1) * orders.shaftHz(); multiple++) {
            double hz = multiple * mainsHz;
            if (!fitted.contains(multiple) && orders.near(hz, unsure * hz)) {
                touched.add(orders.nearest(hz));
            }
        }
        touched.removeIf(order -> order > turn.orders());
        return new LearntTurn(orders.polePairs(), turn, swung, touched);
    }

    /** Where a line of the speed stands on an order, its sidebands stand beside every harmonic of the tacho by that order. */
    private static Set<Integer> swung(int highest, Orders orders, double mainsHz, double unsure, Set<Integer> told) {
        Set<Integer> swung = new HashSet<>();
        for (int multiple : SPEED_MULTIPLES) {
            double hz = multiple * mainsHz;
            int order = orders.nearest(hz);
            if (!told.contains(multiple) && orders.near(hz, unsure * hz)) {
                for (int harmonic = 0; harmonic <= highest + order; harmonic += orders.polePairs()) {
                    swung.add(Math.abs(harmonic - order));
                    swung.add(harmonic + order);
                }
            }
        }
        swung.removeIf(order -> order < 1 || order > highest);
        return swung;
    }
}
