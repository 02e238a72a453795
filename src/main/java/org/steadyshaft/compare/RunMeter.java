package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.numeric.LineFit;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.Blip;
import org.steadyshaft.stability.Blips;
import org.steadyshaft.stability.RippleSpectrum;

/** Reduces a capture to what a comparison needs. */
public final class RunMeter {
    /** A block lasts a second, or as long as this many cycles take: its swing is then that of a second of work. */
    private static final double BLOCK_SECONDS = 1;

    private static final int FEWEST_CYCLES = 10;
    private static final int TRACE_POINTS = 160;
    private static final int SPECTRUM_POINTS = 240;

    /** The run; empty where the capture gives no speed. */
    public Optional<Run> measure(String name, Outcome outcome) {
        if (!(outcome instanceof Outcome.Analysed analysed)) {
            return Optional.empty();
        }
        return analysed.rotation().map(rotation -> run(name, analysed, rotation));
    }

    private static Run run(String name, Outcome.Analysed outcome, Rotation rotation) {
        List<Blip> blips = rotation.blips().map(Blips::events).orElse(List.of());
        List<Run.Block> blocks = new ArrayList<>();
        double turns = 0;
        double seconds = 0;
        for (Stretch stretch : rotation.steady()) {
            addBlocks(rotation.track(), stretch, blips, blocks);
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
                blocks,
                blips.size(),
                rotation.blips().map(Blips::minutes).orElse(0.0),
                rotation.hunting().map(h -> h.amplitudePercent()),
                settling.isPresent() ? Optional.of(settling.getAsDouble()) : Optional.empty(),
                dip.isPresent() ? Optional.of(dip.getAsDouble()) : Optional.empty(),
                trace(rotation.track()),
                spectrum(rotation.spectrum()));
    }

    /** Cuts a steady stretch into blocks; cycles of blips are left out, and a block with too few cycles is none. */
    private static void addBlocks(SpeedTrack track, Stretch stretch, List<Blip> blips, List<Run.Block> blocks) {
        int from = track.firstNotBefore(stretch.fromSeconds());
        int to = track.firstNotBefore(Math.nextUp(stretch.toSeconds()));
        double mean = track.meanRpm(stretch);
        double[] time = new double[to - from];
        double[] percent = new double[to - from];
        for (int i = from; i < to; i++) {
            time[i - from] = track.timeSeconds(i);
            percent[i - from] = 100 * (track.speedRpm(i) / mean - 1);
        }
        boolean[] leftOut = leftOut(time, blips);
        LineFit line = LineFit.of(time, percent);
        int start = 0;
        for (int i = 0; i < time.length; i++) {
            boolean full = time[i] - time[start] >= BLOCK_SECONDS && i - start >= FEWEST_CYCLES;
            if (full) {
                block(time, percent, line, leftOut, start, i).ifPresent(blocks::add);
                start = i;
            }
        }
    }

    /** Which of the cycles, given by the times of their middles, belong to a blip. */
    private static boolean[] leftOut(double[] time, List<Blip> blips) {
        boolean[] out = new boolean[time.length];
        for (Blip blip : blips) {
            int from = firstNotBefore(time, blip.fromSeconds());
            int to = firstNotBefore(time, Math.nextUp(blip.toSeconds()));
            Arrays.fill(out, from, Math.max(from, to), true);
        }
        return out;
    }

    private static int firstNotBefore(double[] time, double seconds) {
        int at = Arrays.binarySearch(time, seconds);
        return at < 0 ? -at - 1 : at;
    }

    private static Optional<Run.Block> block(
            double[] time, double[] percent, LineFit line, boolean[] leftOut, int from, int to) {
        double sum = 0;
        double squares = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        int count = 0;
        for (int i = from; i < to; i++) {
            if (!leftOut[i]) {
                double deviation = percent[i] - line.at(time[i]);
                sum += deviation;
                squares += deviation * deviation;
                low = Math.min(low, deviation);
                high = Math.max(high, deviation);
                count++;
            }
        }
        return 2 * count > to - from
                ? Optional.of(new Run.Block(sum / count, squares / count, high - low, time[to] - time[from]))
                : Optional.empty();
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
