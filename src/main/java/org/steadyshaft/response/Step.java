package org.steadyshaft.response;

import java.util.OptionalDouble;

/**
 * A change of the set-point: the speed goes from one lasting level to another.
 *
 * @param timeSeconds when the speed begins to leave the old level
 * @param fromRpm the level before; above 0
 * @param toRpm the level after; above 0
 * @param deadTimeSeconds from the command to the beginning of the change; absent where no command was recorded
 * @param riseTimeSeconds from 10 % to 90 % of the change; above 0
 * @param overshootPercent how far the speed goes beyond the new level [% of the change]; 0 where it does not
 * @param settlingTimeSeconds from the beginning of the change until the speed stays within +-2 % of the change about the new
 *     level (the usual definition of control practice); absent where it has not settled, or swings about more than that
 */
public record Step(
        double timeSeconds,
        double fromRpm,
        double toRpm,
        OptionalDouble deadTimeSeconds,
        double riseTimeSeconds,
        double overshootPercent,
        OptionalDouble settlingTimeSeconds) {
    public Step {
        if (!Double.isFinite(timeSeconds)) {
            throw new IllegalArgumentException("step at " + timeSeconds + " s");
        }
        if (!(fromRpm > 0) || !(toRpm > 0) || fromRpm == toRpm || !Double.isFinite(fromRpm + toRpm)) {
            throw new IllegalArgumentException("step from " + fromRpm + " rpm to " + toRpm + " rpm");
        }
        if (!(riseTimeSeconds > 0)
                || !(overshootPercent >= 0)
                || !Double.isFinite(riseTimeSeconds + overshootPercent)) {
            throw new IllegalArgumentException(
                    "step that rises in " + riseTimeSeconds + " s with " + overshootPercent + " % overshoot");
        }
        refuseNegative(deadTimeSeconds, "dead time");
        refuseNegative(settlingTimeSeconds, "settling time");
    }

    private static void refuseNegative(OptionalDouble seconds, String what) {
        if (seconds.isPresent() && !(seconds.getAsDouble() >= 0 && Double.isFinite(seconds.getAsDouble()))) {
            throw new IllegalArgumentException(what + " of " + seconds.getAsDouble() + " s");
        }
    }

    /** Height of the step [rpm], signed. */
    public double changeRpm() {
        return toRpm - fromRpm;
    }
}
