package org.steadyshaft.analysis;

import java.util.List;
import java.util.Optional;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.stability.Blips;
import org.steadyshaft.stability.Ripple;
import org.steadyshaft.stability.RippleSpectrum;

/**
 * What was measured of a turning shaft.
 *
 * @param speed its mean speed
 * @param level how strong the tacho came in
 * @param pattern spacing of the tacho's poles; absent where it was not learnt
 * @param track speed cycle by cycle
 * @param spectral tacho frequency by short-time spectra
 * @param steady the steady stretches
 * @param ripple absent without a steady stretch
 * @param spectrum the ripple's spectrum and lines
 * @param blips absent without a steady stretch
 */
public record Rotation(
        MeanSpeed speed,
        TachoLevel level,
        Optional<PolePattern> pattern,
        SpeedTrack track,
        FundamentalTrack spectral,
        List<Stretch> steady,
        Optional<Ripple> ripple,
        RippleSpectrum spectrum,
        Optional<Blips> blips) {
    public Rotation {
        steady = List.copyOf(steady);
    }
}
