package org.steadyshaft.blip;

import java.util.OptionalDouble;

/**
 * How a blip goes: what speaks for its cause.
 *
 * @param riseSeconds from a tenth to nine tenths of its size; one cycle at least, since a cycle has one value
 * @param recoverySeconds time constant of the return: from the peak until a share 1 / e is left; absent where another blip or the
 *     end came first
 * @param turns turns of the shaft gained (positive) or lost against the level
 */
public record BlipShape(double riseSeconds, OptionalDouble recoverySeconds, double turns) {
    public BlipShape {
        if (!(riseSeconds >= 0) || !Double.isFinite(turns)) {
            throw new IllegalArgumentException("rise " + riseSeconds + " s, turns " + turns);
        }
        if (recoverySeconds.isPresent() && !(recoverySeconds.getAsDouble() > 0)) {
            throw new IllegalArgumentException("recovery " + recoverySeconds + " s");
        }
    }
}
