package org.steadyshaft.compare;

import java.util.List;
import java.util.Optional;
import org.steadyshaft.analysis.CaptureLabel;

/**
 * One capture as a comparison sees it; small, so that hundreds fit, and plain, so that it can be kept beside the results.
 *
 * @param name name of the capture's folder
 * @param label what the user said of it
 * @param meanRpm mean speed while steady, else of the whole recording
 * @param expandedRpm expanded uncertainty of the recording's mean speed
 * @param blocks what was measured second by second while the speed was steady; empty where it never was
 * @param blips number of blips
 * @param blipMinutes how long was looked for blips; 0 where nothing was steady
 * @param huntingPercent amplitude of hunting, if there is any
 * @param settlingSeconds longest settling time of a step, if there is one
 * @param dipPercent largest dip of a load event, if there is one
 * @param trace speed over time, few points
 * @param spectrum ripple over frequency, few points
 */
public record Run(
        String name,
        CaptureLabel label,
        double meanRpm,
        double expandedRpm,
        List<Block> blocks,
        int blips,
        double blipMinutes,
        Optional<Double> huntingPercent,
        Optional<Double> settlingSeconds,
        Optional<Double> dipPercent,
        List<Point> trace,
        List<Point> spectrum) {
    /**
     * About a second of steady running, blips left out; deviations are from a straight line through the steady stretch [% of its mean].
     *
     * @param meanPercent mean deviation
     * @param meanSquare mean squared deviation [%^2]
     * @param peakToPeakPercent highest less lowest cycle
     * @param seconds its length
     */
    public record Block(double meanPercent, double meanSquare, double peakToPeakPercent, double seconds) {
        public Block {
            if (!Double.isFinite(meanPercent) || !(meanSquare >= 0) || !(peakToPeakPercent >= 0) || !(seconds > 0)) {
                throw new IllegalArgumentException("block of " + meanPercent + " %, " + meanSquare + " %^2, "
                        + peakToPeakPercent + " %, " + seconds + " s");
            }
        }
    }

    /** A point of a small picture. */
    public record Point(double x, double y) {}

    public Run {
        blocks = List.copyOf(blocks);
        trace = List.copyOf(trace);
        spectrum = List.copyOf(spectrum);
        if (!(meanRpm > 0) || !(expandedRpm >= 0) || blips < 0 || !(blipMinutes >= 0)) {
            throw new IllegalArgumentException("run " + name + " of " + meanRpm + " rpm, " + blips + " blips");
        }
    }

    /** Circuit, with its variant where the run sheet has a column of that name. */
    public String circuit() {
        String variant = label.others().getOrDefault(VARIANT, "");
        String circuit = label.circuit().isEmpty() ? UNNAMED : label.circuit();
        return variant.isEmpty() ? circuit : circuit + ", " + variant;
    }

    /** Stands for the circuit where the run sheet names none. */
    private static final String UNNAMED = "circuit not named";

    /** Column of the run sheet that tells a circuit before a change from the same after it. */
    public static final String VARIANT = "variant";

    /** Minutes of steady running. */
    public double steadyMinutes() {
        return blocks.stream().mapToDouble(Block::seconds).sum() / 60;
    }
}
