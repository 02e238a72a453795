package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Which tones and lines are fitted: the mains' multiples that can be told from the shaft's orders, then whatever was found. What stands on
 * an order is left out, for it is in the turn's voltage already.
 */
final class FitPlan {
    private final double mainsHz;
    private final List<Double> humHz = new ArrayList<>();
    private final List<Integer> humMultiple = new ArrayList<>();
    private final List<Double> lineHz = new ArrayList<>();
    private final List<Integer> lineMultiple = new ArrayList<>();
    private final List<Double> leftOutHz = new ArrayList<>();
    private final int mainsHum;
    private FoundResponse response = FoundResponse.TRUE;

    FitPlan(
            double mainsHz,
            boolean seen,
            Set<Integer> doubtful,
            Orders orders,
            int[] humMultiples,
            int[] speedMultiples,
            double toHz,
            double cleanHz) {
        this.mainsHz = mainsHz;
        for (int multiple : humMultiples) {
            if (multiple * mainsHz < cleanHz
                    && !isOne(multiple * mainsHz, seen, orders)
                    && (seen || !doubtful.contains(multiple))) {
                humHz.add(multiple * mainsHz);
                humMultiple.add(multiple);
            }
        }
        this.mainsHum = humHz.size();
        for (int multiple : speedMultiples) {
            if (multiple * mainsHz <= toHz
                    && !isOne(multiple * mainsHz, seen, orders)
                    && (seen || !doubtful.contains(multiple))) {
                lineHz.add(multiple * mainsHz);
                lineMultiple.add(multiple);
            } else {
                leftOutHz.add(multiple * mainsHz);
            }
        }
    }

    /** Whether a multiple of the mains is, or may be, one with an order; unseen, the mains is known to its usual wander only. */
    private static boolean isOne(double hz, boolean seen, Orders orders) {
        return seen ? orders.isOne(hz) : orders.near(hz, MainsClock.USUAL * hz);
    }

    /** Whether a multiple of the mains stands there that cannot be told from an order. */
    boolean isLeftOut(double hz, double widthHz) {
        return leftOutHz.stream().anyMatch(h -> Math.abs(h - hz) < widthHz);
    }

    double mainsHz() {
        return mainsHz;
    }

    void add(LineSearch.Found found) {
        found.toneHz().forEach(hz -> {
            humHz.add(hz);
            humMultiple.add(0);
        });
        found.lineHz().forEach(hz -> {
            lineHz.add(hz);
            lineMultiple.add(0);
        });
    }

    /** Says how the lines come through to the recording. */
    void use(FoundResponse found) {
        response = found;
    }

    FoundResponse response() {
        return response;
    }

    Columns columns() {
        return new Columns(frequencies(humHz, humMultiple), frequencies(lineHz, lineMultiple), response.response());
    }

    private static Columns.Frequencies frequencies(List<Double> hz, List<Integer> multiple) {
        return new Columns.Frequencies(
                hz.stream().mapToDouble(h -> h).toArray(),
                multiple.stream().mapToInt(m -> m).toArray());
    }

    int mainsHum() {
        return mainsHum;
    }

    int humMultiple(int index) {
        return humMultiple.get(index);
    }

    int lineMultiple(int index) {
        return lineMultiple.get(index);
    }

    /** Index of the line at a multiple of the mains; -1 if it is not fitted. */
    int lineOf(int multiple) {
        return lineMultiple.indexOf(multiple);
    }
}
