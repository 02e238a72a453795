package org.steadyshaft.capture;

import java.util.OptionalDouble;

/**
 * What the user says about a file that the file itself may not tell.
 *
 * @param sampleRateHz for text without a time base
 */
public record ReadOptions(OptionalDouble sampleRateHz) {
    public static final ReadOptions NONE = new ReadOptions(OptionalDouble.empty());

    public ReadOptions {
        if (sampleRateHz.isPresent() && !(sampleRateHz.getAsDouble() > 0)) {
            throw new IllegalArgumentException("sample rate " + sampleRateHz.getAsDouble() + " Hz; expected above 0");
        }
    }
}
