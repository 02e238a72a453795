package org.steadyshaft.simulate;

/**
 * How a triac fails to do what its gate says.
 *
 * @param refiresPerMinute how often, when its current ends, it conducts on through the whole next half-cycle
 * @param missesPerMinute how often it goes out although it was fired
 * @param latchingCurrent current it must reach while the gate pulse lasts [A]; 0 for none
 * @param holdingCurrent current below which it goes out [A]; some tens of mA (common practice)
 * @param weakDelaySeconds how much later it fires for a negative current, whose gate quadrant is the weaker one; infinity for
 *     never, so that it conducts one way only
 * @param shortedSeconds when it fails shorted and conducts for good, from the start of the run; infinity for never
 */
public record Misfiring(
        double refiresPerMinute,
        double missesPerMinute,
        double latchingCurrent,
        double holdingCurrent,
        double weakDelaySeconds,
        double shortedSeconds) {
    public static final Misfiring NEVER = new Misfiring(0, 0, 0);

    public Misfiring {
        if (!(refiresPerMinute >= 0) || !(missesPerMinute >= 0) || !(latchingCurrent >= 0)) {
            throw new IllegalArgumentException("refires, misses and latching current: " + refiresPerMinute + ", "
                    + missesPerMinute + ", " + latchingCurrent + "; expected 0 and more");
        }
        if (!(holdingCurrent >= 0) || !(weakDelaySeconds >= 0) || !(shortedSeconds >= 0)) {
            throw new IllegalArgumentException("holding current, delay of the weak quadrant and time of the short: "
                    + holdingCurrent + ", " + weakDelaySeconds + ", " + shortedSeconds + "; expected 0 and more");
        }
    }

    /** A triac with equal quadrants that stays whole. */
    public Misfiring(double refiresPerMinute, double missesPerMinute, double latchingCurrent) {
        this(refiresPerMinute, missesPerMinute, latchingCurrent, 0, 0, Double.POSITIVE_INFINITY);
    }

    /** Whether it only conducts for a positive current. */
    boolean conductsOneWay() {
        return weakDelaySeconds == Double.POSITIVE_INFINITY;
    }
}
