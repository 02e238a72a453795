package org.steadyshaft.windings;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Which resistances each winding may have, and how little insulation may show.
 *
 * @param of by winding
 * @param frameOhms any contact to the frame must show more than this
 */
public record Ranges(Map<Winding, Range> of, double frameOhms) {
    /** From one resistance to another [ohm]. */
    public record Range(double fromOhms, double toOhms) {
        public Range {
            if (!(fromOhms >= 0) || !(toOhms > fromOhms) || !Double.isFinite(toOhms)) {
                throw new IllegalArgumentException("from " + fromOhms + " to " + toOhms + " ohm");
            }
        }

        boolean holds(double ohms) {
            return ohms >= fromOhms && ohms <= toOhms;
        }
    }

    public Ranges {
        EnumMap<Winding, Range> sorted = new EnumMap<>(Winding.class);
        sorted.putAll(of);
        of = Collections.unmodifiableMap(sorted);
        if (of.size() != Winding.values().length || !(frameOhms > 0)) {
            throw new IllegalArgumentException("ranges of " + of.keySet() + ", frame " + frameOhms);
        }
    }

    List<Winding> candidates(double ohms) {
        return of.entrySet().stream()
                .filter(e -> e.getValue().holds(ohms))
                .map(Map.Entry::getKey)
                .toList();
    }
}
