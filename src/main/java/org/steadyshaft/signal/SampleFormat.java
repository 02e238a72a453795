package org.steadyshaft.signal;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * How the samples of a recording are stored.
 *
 * @param container the kind of file, for example "WAV"
 * @param encoding how one sample is written, for example "PCM 16 bit"
 * @param unit the unit of the sample values: "V", "FS" where full scale is 1, or "units of the file" where it names none
 * @param fullScale the largest magnitude the encoding can hold, in {@code unit}; absent where it has no limit or none is
 *     known
 * @param step the distance between neighbouring values, in {@code unit}; absent where unknown
 * @param kind the sort of recorder that writes such files
 */
public record SampleFormat(
        String container,
        String encoding,
        String unit,
        OptionalDouble fullScale,
        OptionalDouble step,
        RecorderKind kind) {
    /** The sort of recorder, which decides how good its clock is taken to be. */
    public enum RecorderKind {
        SOUND_CARD,
        SCOPE
    }

    public SampleFormat {
        Objects.requireNonNull(container, "container");
        Objects.requireNonNull(encoding, "encoding");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(kind, "kind");
        if (fullScale.isPresent() && !(fullScale.getAsDouble() > 0)) {
            throw new IllegalArgumentException("full scale " + fullScale + "; expected above 0");
        }
        if (step.isPresent() && !(step.getAsDouble() > 0)) {
            throw new IllegalArgumentException("step " + step + "; expected above 0");
        }
    }
}
