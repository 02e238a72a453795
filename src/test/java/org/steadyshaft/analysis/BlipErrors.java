package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;

/**
 * How well the blips of one case were found; NaN where none was. Errors are those of the blips found.
 *
 * @param falsePerHour blips that nobody drew, in an hour of recording
 * @param peakBiasPercent mean error of the peak, of the size
 * @param peakRmsPercent rms error of the peak, of the size
 * @param peakWorstPercent largest error of the peak, of the size
 * @param rightCausePercent share of those found that have the cause they were drawn with
 */
record BlipErrors(
        int drawn,
        double foundPercent,
        double falsePerHour,
        double peakBiasPercent,
        double peakRmsPercent,
        double peakWorstPercent,
        double timeRmsSeconds,
        double timeWorstSeconds,
        double rightCausePercent) {
    /** A blip found belongs to one drawn of the same sign within this time and two cycles. */
    private static final double NEAR_SECONDS = 0.1;

    private record Hit(double peakErrorPercent, double timeErrorSeconds, boolean rightCause) {}

    /** One capture. */
    record Trial(int drawn, List<Hit> hits, int falseOnes, double seconds) {
        static Trial of(BlipCase.Drawn capture, double seconds) {
            List<Blip> left = new ArrayList<>(Analysed.of(capture.source())
                    .rotation()
                    .flatMap(Rotation::blips)
                    .map(Blips::events)
                    .orElse(List.of()));
            List<Hit> hits = new ArrayList<>();
            for (BlipCase.Event event : capture.events()) {
                nearest(left, event, NEAR_SECONDS + 2 / capture.tachoHz()).ifPresent(blip -> {
                    left.remove(blip);
                    hits.add(hit(blip, event));
                });
            }
            return new Trial(capture.events().size(), hits, left.size(), seconds);
        }

        private static Optional<Blip> nearest(List<Blip> blips, BlipCase.Event event, double reachSeconds) {
            return blips.stream()
                    .filter(b -> b.peakPercent() * event.peakPercent() > 0)
                    .filter(b -> away(b, event) < reachSeconds)
                    .min(Comparator.comparingDouble(b -> away(b, event)));
        }

        private static double away(Blip blip, BlipCase.Event event) {
            return Math.abs(blip.peakSeconds() - event.peakSeconds());
        }

        private static Hit hit(Blip blip, BlipCase.Event event) {
            return new Hit(
                    100 * (blip.peakPercent() / event.peakPercent() - 1),
                    blip.peakSeconds() - event.peakSeconds(),
                    blip.cause() == event.cause());
        }
    }

    /** Sums up the captures of one case. */
    static BlipErrors of(List<Trial> trials) {
        int drawn = trials.stream().mapToInt(Trial::drawn).sum();
        int falseOnes = trials.stream().mapToInt(Trial::falseOnes).sum();
        double hours = trials.stream().mapToDouble(Trial::seconds).sum() / 3600;
        List<Hit> hits = trials.stream().flatMap(t -> t.hits().stream()).toList();
        double[] peaks = hits.stream().mapToDouble(Hit::peakErrorPercent).toArray();
        double[] times = hits.stream().mapToDouble(Hit::timeErrorSeconds).toArray();
        long right = hits.stream().filter(Hit::rightCause).count();
        return new BlipErrors(
                drawn,
                100.0 * hits.size() / drawn,
                falseOnes / hours,
                SwingErrors.mean(peaks),
                SwingErrors.rms(peaks),
                SwingErrors.worst(peaks),
                SwingErrors.rms(times),
                SwingErrors.worst(times),
                hits.isEmpty() ? Double.NaN : 100.0 * right / hits.size());
    }
}
