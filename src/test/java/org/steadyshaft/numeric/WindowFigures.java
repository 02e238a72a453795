package org.steadyshaft.numeric;

import java.util.function.DoubleUnaryOperator;

/** Figures of merit of a sampled window by their plain definitions, for the tests. */
final class WindowFigures {
    /** Zeros after the window: side lobes are seen at 64 places a bin, so their tops to 0.003 dB. */
    private static final int PADDING = 64;

    private final Window window;

    WindowFigures(Window window) {
        this.window = window;
    }

    /** A figure by its name in the tables. */
    double of(String name) {
        return switch (name) {
            case "coherent_gain" -> window.sum() / window.length() / peak();
            case "enbw_bins" -> window.noiseBandwidthBins();
            case "scalloping_loss_db" -> -levelDb(0.5);
            case "processing_loss_db" -> processingLossDb();
            case "worst_case_loss_db" -> processingLossDb() - levelDb(0.5);
            case "worst_half_bin_error_db" -> worstHalfBinErrorDb();
            case "bw_half_power_bins" -> 2 * placeOf(Math.sqrt(0.5));
            // half the amplitude, 6.02 dB: the width of the Hann window is then 2 bins exactly
            case "bw_6db_bins" -> 2 * placeOf(0.5);
            case "highest_sidelobe_db" -> highestSideLobeDb();
            default -> throw new AssertionError("no figure " + name);
        };
    }

    private double processingLossDb() {
        return 10 * Math.log10(window.noiseBandwidthBins());
    }

    private double peak() {
        double peak = 0;
        for (int i = 0; i < window.length(); i++) {
            peak = Math.max(peak, window.weight(i));
        }
        return peak;
    }

    /** Height of the transform at a place in bins over that at 0, by the direct sum. */
    private double level(double bins) {
        double real = 0;
        double imaginary = 0;
        for (int i = 0; i < window.length(); i++) {
            double angle = 2 * Math.PI * bins * i / window.length();
            real += window.weight(i) * Math.cos(angle);
            imaginary += window.weight(i) * Math.sin(angle);
        }
        return Math.hypot(real, imaginary) / window.sum();
    }

    private double levelDb(double bins) {
        return 20 * Math.log10(level(bins));
    }

    /** The largest departure from the height at 0 within half a bin, with its sign. */
    private double worstHalfBinErrorDb() {
        double worst = 0;
        for (int i = 0; i <= 100; i++) {
            double error = levelDb(i / 200.0);
            worst = Math.abs(error) > Math.abs(worst) ? error : worst;
        }
        return worst;
    }

    /** Where the main lobe has fallen to a level, by halving; the search starts inside every main lobe. */
    private double placeOf(double level) {
        DoubleUnaryOperator above = bins -> level(bins) - level;
        double low = 0;
        double high = 0.5;
        while (above.applyAsDouble(high) > 0) {
            low = high;
            high += 0.25;
        }
        for (int i = 0; i < 40; i++) {
            double middle = 0.5 * (low + high);
            if (above.applyAsDouble(middle) > 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    /** The highest top after the first minimum of the zero-padded transform. */
    private double highestSideLobeDb() {
        int length = window.length() * PADDING;
        double[] padded = new double[length];
        for (int i = 0; i < window.length(); i++) {
            padded[i] = window.weight(i);
        }
        RealTransform transform = new RealTransform(length);
        double[] power = new double[length / 2 + 1];
        transform.forward(padded);
        transform.power(padded, power);
        int k = 1;
        while (power[k] < power[k - 1] || k < PADDING / 2) {
            k++;
        }
        double highest = 0;
        for (; k < power.length; k++) {
            highest = Math.max(highest, power[k]);
        }
        return 10 * Math.log10(highest / power[0]);
    }
}
