package org.steadyshaft.analysis;

import java.util.List;
import java.util.Optional;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.Uncertainty;

/**
 * Errors of the mean speed over the captures of one case, relative to the true speed; NaN where no capture has a speed.
 *
 * @param worstPpm largest magnitude
 * @param worstOverStated largest magnitude over the expanded statistical uncertainty stated beside it
 * @param speedless captures without a speed
 * @param miscounted captures that are off by half a cycle or more
 */
record SpeedErrors(
        double biasPpm, double rmsPpm, double worstPpm, double worstOverStated, int speedless, int miscounted) {
    /**
     * One capture.
     *
     * @param statedPpm expanded uncertainty without the recorder's clock, k = 2
     */
    record Trial(double errorPpm, double statedPpm, int cycles) {
        static Optional<Trial> of(ToneCase.Drawn drawn) {
            return Analysed.of(drawn.source()).rotation().map(rotation -> of(rotation.speed(), drawn.rpm()));
        }

        private static Trial of(MeanSpeed speed, double rpm) {
            return new Trial(
                    1e6 * (speed.meanRpm() / rpm - 1),
                    1e6 * Uncertainty.COVERAGE_FACTOR * speed.uncertainty().dataRpm() / rpm,
                    speed.cycles());
        }

        private boolean miscounted() {
            return Math.abs(errorPpm) * 1e-6 * cycles >= 0.5;
        }
    }

    /** Sums up the trials of one case, an empty one for each capture without a speed. */
    static SpeedErrors of(List<Optional<Trial>> captures) {
        List<Trial> trials = captures.stream().flatMap(Optional::stream).toList();
        double none = Double.NaN;
        double bias = trials.stream().mapToDouble(Trial::errorPpm).average().orElse(none);
        double square = trials.stream()
                .mapToDouble(t -> t.errorPpm * t.errorPpm)
                .average()
                .orElse(none);
        double worst =
                trials.stream().mapToDouble(t -> Math.abs(t.errorPpm)).max().orElse(none);
        double ratio = trials.stream()
                .mapToDouble(t -> Math.abs(t.errorPpm) / t.statedPpm)
                .max()
                .orElse(none);
        int miscounted = (int) trials.stream().filter(Trial::miscounted).count();
        return new SpeedErrors(bias, Math.sqrt(square), worst, ratio, captures.size() - trials.size(), miscounted);
    }
}
