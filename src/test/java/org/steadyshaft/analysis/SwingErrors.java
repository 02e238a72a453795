package org.steadyshaft.analysis;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.stability.Folding;
import org.steadyshaft.stability.RippleCause;
import org.steadyshaft.stability.RippleLine;

/**
 * How well the swings of one case were found, one a capture; NaN where none was. Errors are those of the swings found.
 *
 * @param foundPercent share of the captures
 * @param rightCausePercent share of those found that have the cause expected
 * @param unfoldedPercent share of those found whose source was told to lie elsewhere than the line
 */
record SwingErrors(
        double foundPercent,
        double amplitudeBiasPercent,
        double amplitudeRmsPercent,
        double amplitudeWorstPercent,
        double frequencyRmsPercent,
        double frequencyWorstPercent,
        double rightCausePercent,
        double unfoldedPercent) {
    /** A line found is the one drawn if it lies within this share of its frequency, or within some bins of its spectrum. */
    private static final double NEAR_SHARE = 0.01;

    private static final double NEAR_HZ = 0.15;

    /** A folded line is smeared, and where it shows moves with the mean speed. */
    private static final double NEAR_FOLDED_HZ = 1;

    /** A hunting is the one drawn within this share of its frequency. */
    private static final double NEAR_HUNTING_SHARE = 0.2;

    /** One swing found: errors relative to what was drawn. */
    record Hit(double amplitudePercent, double frequencyPercent, boolean rightCause, boolean unfolded) {}

    /** The line found for one that shows in its place. */
    static Optional<Hit> line(SwingCase.Drawn drawn) {
        double reachHz = Math.max(NEAR_SHARE * drawn.lineHz(), NEAR_HZ);
        return lines(drawn).stream()
                .filter(l -> Math.abs(l.frequencyHz() - drawn.lineHz()) < reachHz)
                .max(Comparator.comparingDouble(RippleLine::amplitudePercent))
                .map(l -> hit(drawn, drawn.lineHz(), l.amplitudePercent(), l.frequencyHz(), true, false));
    }

    /** The line found for one at twice mains that shows folded; its frequency is judged where it shows. */
    static Optional<Hit> foldedLine(SwingCase.Drawn drawn) {
        double foldedHz = Folding.foldedHz(drawn.lineHz(), drawn.tachoHz());
        return lines(drawn).stream()
                .filter(l -> Math.abs(l.frequencyHz() - foldedHz) < NEAR_FOLDED_HZ)
                .max(Comparator.comparingDouble(RippleLine::amplitudePercent))
                .map(l -> hit(
                        drawn,
                        foldedHz,
                        l.amplitudePercent(),
                        l.frequencyHz(),
                        l.cause() == RippleCause.FOLDED_TWICE_MAINS,
                        l.sourceHz() != l.frequencyHz()));
    }

    static Optional<Hit> hunting(SwingCase.Drawn drawn) {
        return Analysed.of(drawn.source())
                .rotation()
                .flatMap(Rotation::hunting)
                .filter(h -> Math.abs(h.frequencyHz() / drawn.lineHz() - 1) < NEAR_HUNTING_SHARE)
                .map(h -> hit(drawn, drawn.lineHz(), h.amplitudePercent(), h.frequencyHz(), true, false));
    }

    private static List<RippleLine> lines(SwingCase.Drawn drawn) {
        return Analysed.of(drawn.source())
                .rotation()
                .map(r -> r.spectrum().lines())
                .orElse(List.of());
    }

    private static Hit hit(
            SwingCase.Drawn drawn, double trueHz, double percent, double hz, boolean rightCause, boolean unfolded) {
        return new Hit(100 * (percent / drawn.percent() - 1), 100 * (hz / trueHz - 1), rightCause, unfolded);
    }

    /** Sums up the captures of one case, an empty one for each in which the swing was not found. */
    static SwingErrors of(List<Optional<Hit>> captures) {
        List<Hit> hits = captures.stream().flatMap(Optional::stream).toList();
        double[] amplitude = hits.stream().mapToDouble(Hit::amplitudePercent).toArray();
        double[] frequency = hits.stream().mapToDouble(Hit::frequencyPercent).toArray();
        return new SwingErrors(
                100.0 * hits.size() / captures.size(),
                mean(amplitude),
                rms(amplitude),
                worst(amplitude),
                rms(frequency),
                worst(frequency),
                mean(hits.stream().mapToDouble(h -> h.rightCause() ? 100 : 0).toArray()),
                mean(hits.stream().mapToDouble(h -> h.unfolded() ? 100 : 0).toArray()));
    }

    static double mean(double[] values) {
        return Arrays.stream(values).average().orElse(Double.NaN);
    }

    static double rms(double[] values) {
        return Math.sqrt(Arrays.stream(values).map(v -> v * v).average().orElse(Double.NaN));
    }

    static double worst(double[] values) {
        return Arrays.stream(values).map(Math::abs).max().orElse(Double.NaN);
    }
}
