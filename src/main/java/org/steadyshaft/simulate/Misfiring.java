package org.steadyshaft.simulate;

/**
 * How a triac fails to do what its gate says.
 *
 * @param refiresPerMinute how often, when its current ends, it conducts on through the whole next half-cycle
 * @param missesPerMinute how often it goes out although it was fired
 * @param latchingCurrent current it must reach while the gate pulse lasts [A]; 0 for none
 */
public record Misfiring(double refiresPerMinute, double missesPerMinute, double latchingCurrent) {
    public static final Misfiring NEVER = new Misfiring(0, 0, 0);

    public Misfiring {
        if (!(refiresPerMinute >= 0) || !(missesPerMinute >= 0) || !(latchingCurrent >= 0)) {
            throw new IllegalArgumentException("misfiring out of range");
        }
    }
}
