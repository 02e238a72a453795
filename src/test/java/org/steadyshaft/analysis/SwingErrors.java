package org.steadyshaft.analysis;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.RippleLine;

/**
 * How well the swings of one case were found, one a capture; NaN where none was. Errors are those of the swings found.
 *
 * @param foundPercent share of the captures
 * @param rightCausePercent share of those found that have the cause expected
 */
record SwingErrors(
        double foundPercent,
        double amplitudeBiasPercent,
        double amplitudeRmsPercent,
        double amplitudeWorstPercent,
        double frequencyRmsPercent,
        double frequencyWorstPercent,
        double rightCausePercent) {
    /** A line found is the one drawn if it lies within this share of its frequency, or within some bins of its spectrum. */
    private static final double NEAR_SHARE = 0.01;

    private static final double NEAR_HZ = 0.15;

    /** A hunting is the one drawn within this share of its frequency. */
    private static final double NEAR_HUNTING_SHARE = 0.2;

    /** One swing found: errors relative to what was drawn. */
    record Hit(double amplitudePercent, double frequencyPercent, boolean rightCause) {}

    /** The line found for one that shows in its place. */
    static Optional<Hit> line(SwingCase.Drawn drawn) {
        double reachHz = Math.max(NEAR_SHARE * drawn.lineHz(), NEAR_HZ);
        return lines(drawn).stream()
                .filter(l -> Math.abs(l.frequencyHz() - drawn.lineHz()) < reachHz)
                .max(Comparator.comparingDouble(RippleLine::amplitudePercent))
                .map(l -> hit(drawn, drawn.lineHz(), l.amplitudePercent(), l.frequencyHz(), true));
    }

    /** The same for one at twice the mains, with its cause. */
    static Optional<Hit> fastLine(SwingCase.Drawn drawn) {
        double reachHz = Math.max(NEAR_SHARE * drawn.lineHz(), NEAR_HZ);
        return lines(drawn).stream()
                .filter(l -> Math.abs(l.frequencyHz() - drawn.lineHz()) < reachHz)
                .max(Comparator.comparingDouble(RippleLine::amplitudePercent))
                .map(l -> hit(
                        drawn,
                        drawn.lineHz(),
                        l.amplitudePercent(),
                        l.frequencyHz(),
                        l.cause() == RippleCause.TWICE_MAINS));
    }

    static Optional<Hit> hunting(SwingCase.Drawn drawn) {
        return Analysed.of(drawn.source())
                .rotation()
                .flatMap(Rotation::hunting)
                .filter(h -> Math.abs(h.frequencyHz() / drawn.lineHz() - 1) < NEAR_HUNTING_SHARE)
                .map(h -> hit(drawn, drawn.lineHz(), h.amplitudePercent(), h.frequencyHz(), true));
    }

    private static List<RippleLine> lines(SwingCase.Drawn drawn) {
        return Analysed.of(drawn.source())
                .rotation()
                .map(r -> r.spectrum().lines())
                .orElse(List.of());
    }

    private static Hit hit(SwingCase.Drawn drawn, double trueHz, double percent, double hz, boolean rightCause) {
        return new Hit(100 * (percent / drawn.percent() - 1), 100 * (hz / trueHz - 1), rightCause);
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
                mean(hits.stream().mapToDouble(h -> h.rightCause() ? 100 : 0).toArray()));
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
