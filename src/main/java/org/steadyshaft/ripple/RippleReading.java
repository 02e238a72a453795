package org.steadyshaft.ripple;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * What a recording tells of its ripple.
 *
 * @param ripple the figures; absent without steady running long enough
 * @param spectrum the spectrum and its lines
 * @param seconds the steady running second by second
 * @param hunting a slow swing that lasts; absent if there is none
 */
public record RippleReading(
        Optional<Ripple> ripple, RippleSpectrum spectrum, List<SteadySecond> seconds, Optional<Hunting> hunting) {
    /** Where nothing could be read. */
    public static final RippleReading NONE =
            new RippleReading(Optional.empty(), RippleSpectrum.NONE, List.of(), Optional.empty());

    public RippleReading {
        seconds = List.copyOf(seconds);
        Objects.requireNonNull(spectrum, "spectrum");
    }
}
