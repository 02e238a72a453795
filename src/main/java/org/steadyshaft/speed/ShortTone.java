package org.steadyshaft.speed;

import java.util.Optional;
import org.steadyshaft.signal.DoubleSeries;

/** What a short record, such as one screen of a scope, shows. */
public sealed interface ShortTone {
    /**
     * A tone that stands clear.
     *
     * @param frequencyHz its mean frequency over the record
     * @param standardErrorHz standard uncertainty of that, model misfit and quantisation allowed for; the recorder's clock is not
     * @param unseenHz standard uncertainty from what so short a record cannot show: weak pick-up and swings about as slow as itself
     * @param cycles whole and part cycles in the record; at least {@link ShortToneFinder#FEWEST_CYCLES}
     * @param amplitude of the fundamental, in the unit of the samples
     * @param noise standard deviation of what the fit leaves
     * @param risingSeconds every rising passage of the fundamental through its middle, from the first sample on, each moved by what the
     *     wave within half a cycle of it comes late
     * @param changeHzPerSecond even change of the frequency; absent where none stands clear
     */
    record Found(
            double frequencyHz,
            double standardErrorHz,
            double unseenHz,
            double cycles,
            double amplitude,
            double noise,
            DoubleSeries risingSeconds,
            Optional<Double> changeHzPerSecond)
            implements ShortTone {
        public Found {
            if (!(frequencyHz > 0)
                    || !(standardErrorHz >= 0)
                    || !(unseenHz >= 0)
                    || !(cycles > 0)
                    || !(amplitude > 0)
                    || !(noise >= 0)) {
                throw new IllegalArgumentException("tone of " + frequencyHz + " +- " + standardErrorHz + " Hz, "
                        + cycles + " cycles of " + amplitude + " in " + noise);
            }
        }
    }

    /**
     * A tone, but of too few cycles for a speed.
     *
     * @param cycles about so many, above 0
     */
    record TooFewCycles(double cycles) implements ShortTone {}

    /**
     * Nothing that repeats stands clear.
     *
     * @param explainedShare of the record's variance that the best tone explains, 0 to 1
     */
    record NoTone(double explainedShare) implements ShortTone {}
}
