package org.steadyshaft.ripple;

import java.util.Objects;

/**
 * Why a line cannot be told.
 *
 * @param why the reason
 * @param order the order of the shaft that stands there; 0 where that is not the reason
 * @param seconds how long the record is in one piece
 * @param hiddenPercent up to what size a line would not show; 0 where nothing can be said
 * @param slowerRpm nearest clean speed below; 0 where another speed would not help
 * @param fasterRpm nearest clean speed above; 0 where another speed would not help
 */
public record Untold(Why why, int order, double seconds, double hiddenPercent, double slowerRpm, double fasterRpm) {
    /** Reasons. */
    public enum Why {
        /** An order of the shaft stands there: uneven poles look the same. */
        SHAFT_ORDER,
        /** Pick-up stands where the line's sidebands do. */
        PICK_UP,
        /** The noise would hide it. */
        NOISE,
        /** The recorder does not keep the frequencies at which its sidebands stand. */
        TOO_FAST,
        /** There is no steady running long enough. */
        TOO_SHORT,
        /** The wave's peaks are cut off: its level does not follow the speed, and what the cut mixes looks like swings. */
        CUT_OFF,
        /** Teeth are missing: the speed is known once a tooth only, and pick-up looks like a swing there. */
        MISSING_TEETH
    }

    public Untold {
        Objects.requireNonNull(why, "why");
        if (!(seconds >= 0) || !(hiddenPercent >= 0) || !(slowerRpm >= 0) || !(fasterRpm >= 0)) {
            throw new IllegalArgumentException("untold because of " + why + " after " + seconds + " s");
        }
    }
}
