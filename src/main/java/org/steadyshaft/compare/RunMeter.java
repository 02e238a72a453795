package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleSpectrum;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/** Reduces a capture to what a comparison needs. */
public final class RunMeter {
    private static final int TRACE_POINTS = 160;
    private static final int SPECTRUM_POINTS = 240;

    /** The run; empty where the capture gives no speed. */
    public Optional<Run> measure(String name, Outcome outcome) {
        if (!(outcome instanceof Outcome.Analysed analysed)) {
            return Optional.empty();
        }
        return analysed.rotation().map(rotation -> run(name, analysed, rotation));
    }

    private static final double SLOWEST_BAND_HZ = 0.9;

    private static Run run(String name, Outcome.Analysed outcome, Rotation rotation) {
        List<Blip> blips = rotation.blips().map(Blips::events).orElse(List.of());
        double turns = 0;
        double seconds = 0;
        for (Stretch stretch : rotation.steady()) {
            turns += rotation.track().meanRpm(stretch) * stretch.durationSeconds();
            seconds += stretch.durationSeconds();
        }
        OptionalDouble settling = rotation.steps().stream()
                .flatMapToDouble(s -> s.settlingTimeSeconds().stream())
                .max();
        OptionalDouble dip =
                rotation.loadEvents().stream().mapToDouble(e -> e.dipPercent()).max();
        return new Run(
                name,
                outcome.label(),
                seconds > 0 ? turns / seconds : rotation.speed().meanRpm(),
                rotation.speed().expandedRpm(),
                blocks(rotation),
                rotation.ripple().map(RunMeter::lines),
                blips.size(),
                rotation.blips().map(Blips::minutes).orElse(0.0),
                rotation.hunting().map(h -> h.amplitudePercent()),
                settling.isPresent() ? Optional.of(settling.getAsDouble()) : Optional.empty(),
                dip.isPresent() ? Optional.of(dip.getAsDouble()) : Optional.empty(),
                trace(rotation.track()),
                spectrum(rotation.spectrum()));
    }

    private static Run.RippleLines lines(Ripple ripple) {
        return new Run.RippleLines(
                ripple.bandFromHz(),
                ripple.bandToHz(),
                ripple.rmsPercent(),
                ripple.expandedRmsPercent(),
                ripple.twiceMains().figure().map(MainsRipple.Figure::amplitudePercent),
                ripple.twiceMains().figure().map(MainsRipple.Figure::expandedPercent),
                untold(ripple.twiceMains()),
                untold(ripple.mains()));
    }

    private static Optional<Untold.Why> untold(MainsRipple ripple) {
        return ripple.untold().map(Untold::why);
    }

    /**
     * The steady seconds; none where the figures hold from about a second on only: beside runs that tell slower swings, too, theirs would look
     * small.
     */
    private static List<Run.Block> blocks(Rotation rotation) {
        if (rotation.ripple().map(r -> r.bandFromHz() > SLOWEST_BAND_HZ).orElse(false)) {
            return List.of();
        }
        return rotation.rippleReading().seconds().stream()
                .map(s -> new Run.Block(s.meanPercent(), s.meanSquare(), s.swingPercent(), s.seconds()))
                .toList();
    }

    /** Lowest and highest speed by turns, so that no blip is lost. */
    private static List<Run.Point> trace(SpeedTrack track) {
        List<Run.Point> points = new ArrayList<>();
        int group = Math.max(1, 2 * track.size() / TRACE_POINTS);
        for (int from = 0; from < track.size(); from += group) {
            double[] rpm = track.speedsRpm(from, Math.min(track.size(), from + group));
            int low = from;
            int high = from;
            for (int i = 1; i < rpm.length; i++) {
                low = rpm[i] < rpm[low - from] ? from + i : low;
                high = rpm[i] > rpm[high - from] ? from + i : high;
            }
            int first = Math.min(low, high);
            int last = Math.max(low, high);
            points.add(new Run.Point(track.timeSeconds(first), track.speedRpm(first)));
            if (last > first) {
                points.add(new Run.Point(track.timeSeconds(last), track.speedRpm(last)));
            }
        }
        return points;
    }

    private static List<Run.Point> spectrum(RippleSpectrum spectrum) {
        List<Run.Point> points = new ArrayList<>();
        int group = Math.max(1, spectrum.frequencyHz().size() / SPECTRUM_POINTS);
        for (int from = 1; from < spectrum.frequencyHz().size(); from += group) {
            int best = from;
            for (int i = from; i < Math.min(spectrum.frequencyHz().size(), from + group); i++) {
                best = spectrum.amplitudePercent().get(i)
                                > spectrum.amplitudePercent().get(best)
                        ? i
                        : best;
            }
            points.add(new Run.Point(
                    spectrum.frequencyHz().get(best),
                    spectrum.amplitudePercent().get(best)));
        }
        return points;
    }
}
