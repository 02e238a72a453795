package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Finds the mains' frequency by the recorder's clock from its multiples, be they tones or lines of the speed. The clock and the supply
 * both stand off; a hundredth of a hertz turns a line at twice mains once within 50 s.
 */
final class MainsClock {
    /** Multiples that circuits and pick-up show. */
    private static final int[] MULTIPLES = {1, 2, 3, 4, 6};

    /** How far the mains may stand off: 49.8 to 50.2 Hz occur (common practice), and a recorder's clock adds little. */
    private static final double TOLERANCE = 0.005;

    /** Chance that noise alone is taken for the mains. */
    private static final double FALSE_CHANCE = 1e-4;

    /** Of peaks that reach this share of the highest, that nearest to the nominal frequency is taken. */
    private static final double AS_HIGH = 0.3;

    /** A peak, brought to the mains' frequency; its weight is the inverse of its variance but for a common factor. */
    private record Peak(double mainsHz, double height, double widthHz, double weight) {}

    private final double nominalHz;
    private final Orders orders;

    MainsClock(double nominalHz, Orders orders) {
        this.nominalHz = nominalHz;
        this.orders = orders;
    }

    /** The mains' frequency [Hz]; empty if nothing stands clear of the noise. */
    OptionalDouble find(RestSpectrum spectrum) {
        List<Peak> peaks = new ArrayList<>();
        double clear = spectrum.clear(FALSE_CHANCE);
        for (int multiple : MULTIPLES) {
            addPeaks(spectrum, multiple, true, clear, peaks);
            addPeaks(spectrum, multiple, false, clear, peaks);
        }
        double highest = peaks.stream().mapToDouble(Peak::height).max().orElse(0);
        OptionalDouble nearest = peaks.stream()
                .filter(p -> p.height >= AS_HIGH * highest)
                .mapToDouble(p -> p.mainsHz)
                .reduce((a, b) -> Math.abs(b - nominalHz) < Math.abs(a - nominalHz) ? b : a);
        if (nearest.isEmpty()) {
            return nearest;
        }
        double centre = nearest.getAsDouble();
        double sum = 0;
        double weights = 0;
        for (Peak peak : peaks) {
            if (Math.abs(peak.mainsHz - centre) < peak.widthHz) {
                sum += peak.weight * peak.mainsHz;
                weights += peak.weight;
            }
        }
        return OptionalDouble.of(sum / weights);
    }

    private void addPeaks(RestSpectrum spectrum, int multiple, boolean speed, double clear, List<Peak> peaks) {
        double step = spectrum.binHz();
        double centre = multiple * nominalHz;
        double reach = TOLERANCE * centre;
        if (centre + reach > spectrum.topHz()) {
            return;
        }
        double noise = speed
                ? spectrum.speedNoise(centre, f -> orders.near(f) || Math.abs(f - centre) < reach)
                : spectrum.toneNoise(centre, f -> orders.near(f) || Math.abs(f - centre) < reach);
        double before = height(spectrum, speed, centre - reach - step);
        double here = height(spectrum, speed, centre - reach);
        for (double hz = centre - reach; hz <= centre + reach; hz += step) {
            double after = height(spectrum, speed, hz + step);
            if (here > before && here >= after && here > clear * noise && !orders.near(hz)) {
                double exact = speed ? spectrum.speedPeakHz(hz, step) : spectrum.tonePeakHz(hz, step);
                double height = here / noise;
                peaks.add(new Peak(
                        exact / multiple, height, 0.5 * spectrum.widthHz() / multiple, height * multiple * multiple));
            }
            before = here;
            here = after;
        }
    }

    private static double height(RestSpectrum spectrum, boolean speed, double hz) {
        return speed ? spectrum.speedHeight(hz) : spectrum.toneHeight(hz);
    }
}
