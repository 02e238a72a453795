package org.steadyshaft.plan;

import java.util.ArrayList;
import java.util.List;

/**
 * Speeds at which a swing of the mains can be told from the tacho's own pattern. At 120 f / k rpm, k whole, twice the mains comes k times a
 * turn, as the pattern of uneven poles does; at 60 f m / p the tacho of p pole pairs gives a multiple of the mains, as pick-up does.
 */
final class CleanSpeeds {
    /** So far from a coincidence a line of the mains stands apart in a recording of half a minute: a figure of our own, as in the demo. */
    static final double AWAY = 0.03;

    private final double mainsHz;

    private final int polePairs;

    CleanSpeeds(double mainsHz, int polePairs) {
        this.mainsHz = mainsHz;
        this.polePairs = polePairs;
    }

    /** Speeds of a range at which twice the mains is an order of the shaft, or the tacho's frequency a multiple of the mains; rising. */
    List<Double> coincidences(double fromRpm, double toRpm) {
        List<Double> speeds = new ArrayList<>();
        for (int k = 1; 120 * mainsHz / k >= fromRpm; k++) {
            add(speeds, 120 * mainsHz / k, fromRpm, toRpm);
        }
        for (int m = 1; 60 * mainsHz * m / polePairs <= toRpm; m++) {
            add(speeds, 60 * mainsHz * m / polePairs, fromRpm, toRpm);
        }
        return speeds.stream().sorted().distinct().toList();
    }

    private static void add(List<Double> speeds, double rpm, double fromRpm, double toRpm) {
        if (rpm >= fromRpm && rpm <= toRpm && speeds.stream().noneMatch(s -> Math.abs(s / rpm - 1) < 1e-9)) {
            speeds.add(rpm);
        }
    }

    /** How far a speed is from the nearest coincidence, as a share of it. */
    double distance(double rpm) {
        return coincidences(rpm / 2, rpm * 2).stream()
                .mapToDouble(s -> Math.abs(rpm / s - 1))
                .min()
                .orElse(1);
    }

    /**
     * The nearest speed of a range that is far enough from all coincidences; where they lie too close for that, the one nearby that is
     * furthest from them.
     */
    double near(double rpm, double fromRpm, double toRpm) {
        if (distance(rpm) >= AWAY) {
            return rpm;
        }
        double best = rpm;
        double cost = Double.POSITIVE_INFINITY;
        for (int i = -200; i <= 200; i++) {
            double tried = rpm * (1 + 0.0005 * i);
            if (tried < fromRpm || tried > toRpm) {
                continue;
            }
            double away = Math.min(AWAY, distance(tried));
            // as far as can be, and of those the nearest
            double own = (AWAY - away) * 1000 + Math.abs(i) * 1e-4;
            if (own < cost) {
                cost = own;
                best = tried;
            }
        }
        return best;
    }
}
