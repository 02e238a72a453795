package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.analysis.DriveWords;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.ripple.RippleSpectrum;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.Alarm;

/** Reduces a capture to what a comparison needs. */
public final class RunMeter {
    private static final int TRACE_POINTS = 160;
    private static final int SPECTRUM_POINTS = 240;

    /** More regular swings than this name no other cause worth a change. */
    private static final int MOST_LINES = 6;

    /** The run; empty where the capture gives no speed. */
    public Optional<Run> measure(String name, Outcome outcome) {
        if (!(outcome instanceof Outcome.Analysed analysed)) {
            return Optional.empty();
        }
        return analysed.rotation().map(rotation -> run(name, analysed, rotation));
    }

    private static final double SLOWEST_BAND_HZ = 0.9;

    private static Run run(String name, Outcome.Analysed outcome, Rotation rotation) {
        double turns = 0;
        double seconds = 0;
        for (Stretch stretch : rotation.steady()) {
            turns += rotation.track().meanRpm(stretch) * stretch.durationSeconds();
            seconds += stretch.durationSeconds();
        }
        return new Run(
                name,
                outcome.label(),
                trust(outcome, rotation),
                seconds > 0 ? turns / seconds : rotation.speed().meanRpm(),
                rotation.speed().uncertainty().dataRpm(),
                blocks(rotation),
                rotation.ripple().map(RunMeter::ripple),
                rotation.spectrum().lines().stream()
                        .limit(MOST_LINES)
                        .map(line -> new Run.Line(
                                line.frequencyHz(), line.amplitudePercent(), line.expandedPercent(), line.cause()))
                        .toList(),
                rotation.blips().map(RunMeter::jumps).orElse(Run.Jumps.NOT_LOOKED_FOR),
                rotation.hunting().map(hunting -> hunts(hunting, rotation.spectrum())),
                DriveWords.isLoop(outcome.label()),
                rotation.steps().stream()
                        .flatMap(s -> s.settlingTimeSeconds().stream().boxed())
                        .toList(),
                trace(rotation.track()),
                spectrum(rotation.spectrum()));
    }

    private static Run.Trust trust(Outcome.Analysed outcome, Rotation rotation) {
        return new Run.Trust(
                outcome.grade(),
                outcome.findings().stream()
                        .filter(f -> f.severity() != Finding.Severity.NOTE)
                        .map(Finding::code)
                        .distinct()
                        .toList(),
                rotation.alarms().stream().map(Alarm::code).distinct().toList());
    }

    private static Run.Jumps jumps(Blips blips) {
        return new Run.Jumps(
                blips.events().stream()
                        .map(e -> new Run.Jump(e.peakPercent(), e.cause()))
                        .toList(),
                blips.minutes(),
                blips.smallestPercent());
    }

    /** The amplitude is that of the largest line with this cause, and so is its uncertainty. */
    private static Run.Hunts hunts(Hunting hunting, RippleSpectrum spectrum) {
        double expanded = spectrum.lines().stream()
                .filter(line -> line.cause() == RippleCause.HUNTING)
                .findFirst()
                .map(RippleLine::expandedPercent)
                .orElse(0.0);
        return new Run.Hunts(hunting.frequencyHz(), hunting.amplitudePercent(), expanded, hunting.trend());
    }

    private static Run.RippleLines ripple(Ripple ripple) {
        return new Run.RippleLines(
                ripple.bandFromHz(),
                ripple.bandToHz(),
                ripple.rmsPercent(),
                ripple.expandedRmsPercent(),
                line(ripple.twiceMains()),
                line(ripple.mains()));
    }

    private static Run.MainsLine line(MainsRipple ripple) {
        return ripple.figure()
                .map(f -> Run.MainsLine.of(f.amplitudePercent(), f.expandedPercent()))
                .orElseGet(
                        () -> Run.MainsLine.untold(ripple.untold().orElseThrow().why()));
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
