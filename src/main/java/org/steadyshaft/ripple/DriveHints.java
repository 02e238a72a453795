package org.steadyshaft.ripple;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the user says about the drive, as far as causes depend on it.
 *
 * @param beltRatio turns of the motor for one of the driven wheel; absent if nobody said
 * @param loop whether the circuit controls the speed; absent if nobody said
 */
public record DriveHints(OptionalDouble beltRatio, Optional<Boolean> loop) {
    public static final DriveHints NONE = new DriveHints(OptionalDouble.empty(), Optional.empty());

    public DriveHints {
        if (beltRatio.isPresent() && !(beltRatio.getAsDouble() > 0)) {
            throw new IllegalArgumentException("belt ratio " + beltRatio.getAsDouble() + "; expected above 0");
        }
    }
}
