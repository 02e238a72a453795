package org.steadyshaft.analysis;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.OrderSpectrum;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleReading;
import org.steadyshaft.ripple.RippleSpectrum;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.stability.Alarm;
import org.steadyshaft.stability.Drift;
import org.steadyshaft.stability.StabilityPoint;
import org.steadyshaft.voltage.LearntTurn;

/**
 * What was measured of a turning shaft.
 *
 * @param speed its mean speed
 * @param level how strong the tacho came in
 * @param pattern spacing of the tacho's poles; absent where it was not learnt
 * @param track speed cycle by cycle
 * @param spectral tacho frequency by short-time spectra
 * @param steady the steady stretches
 * @param rippleReading what swings regularly
 * @param orders the ripple by turn of the shaft
 * @param blips absent without a steady stretch
 * @param blipRemarks what several blips have in common
 * @param drift absent where too little was steady
 * @param stability Allan deviation by averaging time; empty where too little was steady
 * @param steps changes of the set-point
 * @param loadEvents loads put on or taken off
 * @param alarms what is dangerous or not meant
 * @param closeUps raw waveform around the largest blips, in the order of the blips
 * @param learnt what other recordings of the tacho may learn from this one
 */
public record Rotation(
        MeanSpeed speed,
        TachoLevel level,
        Optional<PolePattern> pattern,
        SpeedTrack track,
        FundamentalTrack spectral,
        List<Stretch> steady,
        RippleReading rippleReading,
        OrderSpectrum orders,
        Optional<Blips> blips,
        List<String> blipRemarks,
        Optional<Drift> drift,
        List<StabilityPoint> stability,
        List<Step> steps,
        List<LoadEvent> loadEvents,
        List<Alarm> alarms,
        List<BlipExtract> closeUps,
        Optional<LearntTurn> learnt) {
    public Rotation {
        steady = List.copyOf(steady);
        blipRemarks = List.copyOf(blipRemarks);
        stability = List.copyOf(stability);
        steps = List.copyOf(steps);
        loadEvents = List.copyOf(loadEvents);
        alarms = List.copyOf(alarms);
        closeUps = List.copyOf(closeUps);
    }

    /** Whether a line of the mains stands on an order of the shaft, and other recordings of the tacho could tell it. */
    public boolean isHiddenByTheShaft() {
        return ripple().stream()
                .flatMap(r -> Stream.of(r.twiceMains(), r.mains()))
                .anyMatch(m -> m.untold()
                        .filter(u -> u.why() == Untold.Why.SHAFT_ORDER)
                        .isPresent());
    }

    /** Absent without steady running long enough. */
    public Optional<Ripple> ripple() {
        return rippleReading.ripple();
    }

    /** The ripple's spectrum and lines. */
    public RippleSpectrum spectrum() {
        return rippleReading.spectrum();
    }

    /** Absent where the speed does not hunt. */
    public Optional<Hunting> hunting() {
        return rippleReading.hunting();
    }
}
