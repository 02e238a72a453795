package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * Speeds that lie together. What is together is found from the speeds themselves, nearest first, never from edges that were set before:
 * two equal speeds are never parted.
 *
 * @param fromRpm slowest of them
 * @param toRpm fastest
 */
public record SpeedLevel(double fromRpm, double toRpm) implements Comparable<SpeedLevel> {
    /** Speeds nearer than this are told as one [ratio]. */
    private static final double ALIKE = 1.03;

    public SpeedLevel {
        if (!(fromRpm > 0) || !(toRpm >= fromRpm) || !Double.isFinite(toRpm)) {
            throw new IllegalArgumentException("speeds from " + fromRpm + " to " + toRpm + " rpm");
        }
    }

    /**
     * Sorts things into levels: neighbours are joined, the nearest first, as long as the fastest of a level is at most a ratio above its
     * slowest.
     *
     * @param rpm speed of a thing; above 0
     * @param ratio above 1
     * @return the levels, rising; things of one speed stay in their order
     */
    static <T> List<List<T>> split(List<T> things, ToDoubleFunction<T> rpm, double ratio) {
        List<List<T>> levels = new ArrayList<>();
        things.stream()
                .sorted(Comparator.comparingDouble(rpm))
                .forEach(thing -> levels.add(new ArrayList<>(List.of(thing))));
        while (true) {
            int nearest = -1;
            double least = ratio;
            for (int i = 0; i + 1 < levels.size(); i++) {
                double slowest = rpm.applyAsDouble(levels.get(i).get(0));
                List<T> next = levels.get(i + 1);
                double span = rpm.applyAsDouble(next.get(next.size() - 1)) / slowest;
                if (nearest < 0 ? span <= least : span < least) {
                    least = span;
                    nearest = i;
                }
            }
            if (nearest < 0) {
                return levels;
            }
            levels.get(nearest).addAll(levels.remove(nearest + 1));
        }
    }

    /** The level that some things span. */
    static <T> SpeedLevel of(List<T> things, ToDoubleFunction<T> rpm) {
        return new SpeedLevel(
                things.stream().mapToDouble(rpm).min().orElse(0),
                things.stream().mapToDouble(rpm).max().orElse(0));
    }

    @Override
    public int compareTo(SpeedLevel other) {
        return Comparator.comparingDouble(SpeedLevel::fromRpm)
                .thenComparingDouble(SpeedLevel::toRpm)
                .compare(this, other);
    }

    /** For a heading: "about 582 rpm" or "542 to 649 rpm". */
    public String words() {
        return toRpm <= ALIKE * fromRpm
                ? String.format(Locale.ROOT, "about %.0f rpm", Math.sqrt(fromRpm * toRpm))
                : String.format(Locale.ROOT, "%.0f to %.0f rpm", fromRpm, toRpm);
    }
}
