package org.steadyshaft.voltage;

import java.util.Objects;

/** What the waveform says of the speed's line at a multiple of the mains: a figure, or why there is none. */
public sealed interface MainsReading {
    /** The line's frequency [Hz]: where it was looked for. */
    double hz();

    /** A figure with its uncertainty. */
    record Told(SpeedLine line) implements MainsReading {
        @Override
        public double hz() {
            return line.hz();
        }
    }

    /**
     * No figure.
     *
     * @param why the reason
     * @param order the order of the shaft that stands there; 0 where that is not the reason
     * @param seconds length of the record in one piece
     * @param hiddenPercent up to what size a line would not show; 0 where nothing can be said
     * @param slowerRpm nearest clean speed below; 0 where speed is not the reason
     * @param fasterRpm nearest clean speed above; 0 where speed is not the reason
     */
    record NotTellable(
            double hz, Why why, int order, double seconds, double hiddenPercent, double slowerRpm, double fasterRpm)
            implements MainsReading {
        public NotTellable {
            Objects.requireNonNull(why, "why");
            if (!(hz > 0) || !(hiddenPercent >= 0) || !(slowerRpm >= 0) || !(fasterRpm >= 0)) {
                throw new IllegalArgumentException("not tellable at " + hz + " Hz: " + why);
            }
        }
    }

    /** Reasons why a line cannot be told. */
    enum Why {
        /** An order of the shaft stands there: uneven poles look the same. */
        SHAFT_ORDER,
        /** Pick-up of the mains stands where the line's sidebands do. */
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
}
