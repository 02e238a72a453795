package org.steadyshaft.analysis;

import java.util.List;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.ripple.RippleLine;

/**
 * What was found in captures into which neither lines, hunting nor blips were drawn.
 *
 * @param largestPercent largest of the lines; 0 if there is none
 * @param huntingPercent share of the captures that were said to hunt
 */
record InventedDisturbances(double linesACapture, double largestPercent, double huntingPercent, double blipsPerHour) {
    /** One capture. */
    record Trial(int lines, double largestPercent, boolean hunts, int blips, double seconds) {
        static Trial of(SwingCase.Drawn drawn, double seconds) {
            Rotation rotation = Analysed.rotation(drawn.source());
            List<RippleLine> lines = rotation.spectrum().lines();
            return new Trial(
                    lines.size(),
                    lines.stream()
                            .mapToDouble(RippleLine::amplitudePercent)
                            .max()
                            .orElse(0),
                    rotation.hunting().isPresent(),
                    rotation.blips().map(Blips::events).orElse(List.of()).size(),
                    seconds);
        }
    }

    /** Sums up the captures of one case, of which there is one at least. */
    static InventedDisturbances of(List<Trial> trials) {
        double captures = trials.size();
        double hours = trials.stream().mapToDouble(Trial::seconds).sum() / 3600;
        return new InventedDisturbances(
                trials.stream().mapToInt(Trial::lines).sum() / captures,
                trials.stream().mapToDouble(Trial::largestPercent).max().orElse(0),
                100 * trials.stream().filter(Trial::hunts).count() / captures,
                trials.stream().mapToInt(Trial::blips).sum() / hours);
    }
}
