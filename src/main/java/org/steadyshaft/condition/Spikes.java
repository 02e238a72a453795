package org.steadyshaft.condition;

/**
 * Needles in a channel: a tacho's wave and its noise are smooth against the ringing of a triac that switches.
 *
 * @param perSecond needles a second; 0 or above
 * @param height mean height of a needle, about half of its second difference, in the unit of the samples; 0 without any
 */
public record Spikes(double perSecond, double height) {
    public Spikes {
        if (!(perSecond >= 0) || !(height >= 0)) {
            throw new IllegalArgumentException(perSecond + " needles a second of height " + height);
        }
    }
}
