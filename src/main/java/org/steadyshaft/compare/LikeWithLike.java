package org.steadyshaft.compare;

import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** Tells why two groups do not mean the same by a measure: another band, a line that one side cannot tell, no interval. */
final class LikeWithLike {
    /** What holds the lines of the mains, and is comparable only where both sides tell them. */
    private static final Set<Measure> WITH_LINES = Set.of(Measure.RIPPLE, Measure.SWING);

    /** What slow swings take part in, which a short record or one full of jumps does not tell. */
    private static final Set<Measure> SLOW = Set.of(Measure.RIPPLE, Measure.WANDER);

    /** Bands that begin within this ratio of each other are one. */
    private static final double ONE_BEGIN = 4;

    /** Bands within this factor are one: nothing of size stands at their upper ends. */
    private static final double ONE_BAND = 1.1;

    private LikeWithLike() {}

    /** The reason; empty where the two can be compared, or where neither side has the measure at all. */
    static Optional<String> reason(Measure measure, Group first, Group second) {
        return missing(measure, first)
                .or(() -> missing(measure, second))
                .or(() -> begins(measure, first, second))
                .or(() -> ends(measure, first, second));
    }

    private static Optional<String> missing(Measure measure, Group group) {
        Optional<Estimate> estimate = group.estimate(measure);
        if (estimate.isEmpty()) {
            return Optional.of(group.circuit() + ": "
                    + group.untold().getOrDefault(measure, measure.title() + " was not recorded"));
        }
        return estimate.get().hasInterval()
                ? Optional.empty()
                : Optional.of(group.circuit() + ": one step alone does not tell how the next one settles");
    }

    private static Optional<String> begins(Measure measure, Group first, Group second) {
        double later = Math.max(first.bandFromHz(), second.bandFromHz());
        double earlier = Math.min(first.bandFromHz(), second.bandFromHz());
        return SLOW.contains(measure) && later > ONE_BEGIN * earlier
                ? Optional.of(String.format(
                        Locale.ROOT, "one tells swings from %.2g Hz on, the other from %.2g Hz on", later, earlier))
                : Optional.empty();
    }

    private static Optional<String> ends(Measure measure, Group first, Group second) {
        if (!WITH_LINES.contains(measure)) {
            return Optional.empty();
        }
        double low = Math.min(first.bandToHz(), second.bandToHz());
        double high = Math.max(first.bandToHz(), second.bandToHz());
        return first.notWhole()
                .map(why -> first.circuit() + ": " + why)
                .or(() -> second.notWhole().map(why -> second.circuit() + ": " + why))
                .or(() -> high > ONE_BAND * low
                        ? Optional.of(String.format(
                                Locale.ROOT, "one is seen up to %.0f Hz, the other up to %.0f Hz", low, high))
                        : Optional.empty());
    }
}
