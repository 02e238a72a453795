package org.steadyshaft.plan;

import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Speeds at which a swing of the mains can be told from the tacho's own pattern. At 120 f / k rpm, k whole, twice the mains comes k times a
 * turn, as the pattern of uneven poles does; at 60 f m / p the tacho of p pole pairs gives a multiple of the mains, as pick-up does.
 */
final class CleanSpeeds {
    /** So far from a coincidence a line of the mains stands apart in a recording of half a minute: a figure of our own, as in the demo. */
    static final double AWAY = 0.03;

    /** Orders above this lie closer to one another than twice that distance; multiples of the mains above it are faint (our own figure). */
    static final int DENSE = 16;

    private static final double STEP = 0.0005;
    private static final int STEPS = 200;

    private final double mainsHz;
    private final int polePairs;

    CleanSpeeds(double mainsHz, int polePairs) {
        this.mainsHz = mainsHz;
        this.polePairs = polePairs;
    }

    /** Below this the orders are dense: the middle between two of them is the cleanest speed there is [rpm]. */
    double denseBelowRpm() {
        return 120 * mainsHz / DENSE;
    }

    /** Speeds of a range at which twice the mains is an order of the shaft, or the tacho's frequency a multiple of the mains; rising. */
    List<Double> coincidences(double fromRpm, double toRpm) {
        DoubleStream orders = IntStream.rangeClosed(1, DENSE).mapToDouble(k -> 120 * mainsHz / k);
        DoubleStream multiples = IntStream.rangeClosed(1, DENSE).mapToDouble(m -> 60 * mainsHz * m / polePairs);
        return DoubleStream.concat(orders, multiples)
                .filter(rpm -> rpm >= fromRpm && rpm <= toRpm)
                // the same speed by both ways differs in its last bits
                .map(rpm -> Math.rint(rpm * 1e6) / 1e6)
                .sorted()
                .distinct()
                .boxed()
                .toList();
    }

    /** How far a speed is from the nearest coincidence, as a share of it. */
    double distance(double rpm) {
        double order = 120 * mainsHz / rpm;
        double multiple = rpm * polePairs / (60 * mainsHz);
        double fromOrder = nearest(order, Integer.MAX_VALUE);
        return Math.min(fromOrder, nearest(multiple, DENSE));
    }

    /** Relative distance of a number from the nearest whole one from 1 to a most. */
    private static double nearest(double value, int most) {
        double whole = Math.max(1, Math.min(most, Math.rint(value)));
        return Math.abs(value / whole - 1);
    }

    /**
     * The nearest speed of a range that is far enough from all coincidences; where they lie too close for that, the one nearby that is
     * furthest from them.
     */
    double near(double rpm, double fromRpm, double toRpm) {
        double best = rpm;
        double cost = Double.POSITIVE_INFINITY;
        for (int i = -STEPS; i <= STEPS; i++) {
            double tried = rpm * (1 + STEP * i);
            double missing = AWAY - Math.min(AWAY, distance(tried));
            // as far as can be, and of those the nearest
            double own = 1000 * missing + STEP * Math.abs(i);
            if (tried >= fromRpm && tried <= toRpm && own < cost) {
                cost = own;
                best = tried;
            }
        }
        return best;
    }
}
