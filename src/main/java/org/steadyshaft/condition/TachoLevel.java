package org.steadyshaft.condition;

import java.util.OptionalDouble;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SampleFormat;

/**
 * How strong the tacho came in.
 *
 * @param amplitude median amplitude of its fundamental, in the unit of the samples
 * @param decibelFullScale its level; 0 dBFS is the rms of a full-scale sine (AES17, IEC 61606); absent without a full scale
 */
public record TachoLevel(double amplitude, OptionalDouble decibelFullScale) {
    public TachoLevel {
        if (!(amplitude > 0)) {
            throw new IllegalArgumentException("amplitude " + amplitude + "; expected above 0");
        }
    }

    /** The level over the rotating frames of a track; one at least must rotate. */
    public static TachoLevel of(SampleFormat format, FundamentalTrack track) {
        double median = Robust.median(track.rotating(track::amplitude));
        return new TachoLevel(
                median,
                format.fullScale().isPresent()
                        ? OptionalDouble.of(decibel(
                                median / Math.sqrt(2), format.fullScale().getAsDouble()))
                        : OptionalDouble.empty());
    }

    /** Level [dBFS] of an rms value against a full scale: 0 dB for the rms of a sine that reaches full scale (AES17). */
    public static double decibel(double rms, double fullScale) {
        return 20 * Math.log10(rms * Math.sqrt(2) / fullScale);
    }
}
