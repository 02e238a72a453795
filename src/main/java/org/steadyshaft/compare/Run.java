package org.steadyshaft.compare;

import java.util.List;
import java.util.Optional;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.ripple.Untold;

/**
 * One capture as a comparison sees it; small, so that hundreds fit, and plain, so that it can be kept beside the results.
 *
 * @param name name of the capture's folder
 * @param label what the user said of it
 * @param meanRpm mean speed while steady, else of the whole recording
 * @param expandedRpm expanded uncertainty of the recording's mean speed
 * @param blocks what was measured second by second while the speed was steady; empty where it never was
 * @param ripple its ripple; absent where too little was steady
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
        Optional<RippleLines> ripple,
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
            if (!Double.isFinite(meanPercent)
                    || !Double.isFinite(meanSquare)
                    || !(peakToPeakPercent >= 0)
                    || !(seconds > 0)) {
                throw new IllegalArgumentException("block of " + meanPercent + " %, " + meanSquare + " %^2, "
                        + peakToPeakPercent + " %, " + seconds + " s");
            }
        }
    }

    /**
     * The ripple of the whole run.
     *
     * @param bandFromHz it holds from here
     * @param bandToHz up to here
     * @param rmsPercent its rms, noise taken off
     * @param expandedPercent expanded uncertainty of that, k = 2
     * @param twiceMainsPercent amplitude of the line at twice the mains; absent where it cannot be told
     * @param twiceMainsExpandedPercent expanded uncertainty of that
     * @param twiceMainsUntold why it cannot be told; absent where it can
     * @param mainsUntold why the line at the mains cannot be told; absent where it can
     */
    public record RippleLines(
            double bandFromHz,
            double bandToHz,
            double rmsPercent,
            double expandedPercent,
            Optional<Double> twiceMainsPercent,
            Optional<Double> twiceMainsExpandedPercent,
            Optional<Untold.Why> twiceMainsUntold,
            Optional<Untold.Why> mainsUntold) {
        public RippleLines {
            if (!(bandFromHz >= 0) || !(bandToHz > 0) || !(rmsPercent >= 0) || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException("ripple of " + rmsPercent + " % up to " + bandToHz + " Hz");
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
