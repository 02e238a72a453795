package org.steadyshaft.response;

import java.util.OptionalDouble;

/**
 * What a load that was put on or taken off did to the speed. All shares are of the mean level before it.
 *
 * @param timeSeconds when the speed begins to leave its level
 * @param dipPercent largest departure; positive = the speed fell, negative = it rose
 * @param recoverySeconds from there until the speed stays within +-2 % of the level before; 0 where it never left that band;
 *     absent where it did not come back
 * @param droopPercent lasting difference; positive = it stays lower; absent where the recording shows no settled speed after
 */
public record LoadEvent(
        double timeSeconds, double dipPercent, OptionalDouble recoverySeconds, OptionalDouble droopPercent) {
    public LoadEvent {
        if (!Double.isFinite(timeSeconds)) {
            throw new IllegalArgumentException("load event at " + timeSeconds + " s");
        }
        if (!Double.isFinite(dipPercent) || dipPercent == 0 || dipPercent > 100) {
            throw new IllegalArgumentException("load event of " + dipPercent + " %");
        }
        if (recoverySeconds.isPresent()
                && !(recoverySeconds.getAsDouble() >= 0 && Double.isFinite(recoverySeconds.getAsDouble()))) {
            throw new IllegalArgumentException("recovery in " + recoverySeconds.getAsDouble() + " s");
        }
        if (droopPercent.isPresent() && !(Math.abs(droopPercent.getAsDouble()) <= 100)) {
            throw new IllegalArgumentException("droop of " + droopPercent.getAsDouble() + " %");
        }
    }
}
