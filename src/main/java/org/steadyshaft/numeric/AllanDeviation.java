package org.steadyshaft.numeric;

/**
 * Overlapping Allan deviation of N phase values x at the spacing t and averaging factor m: the root of the sum over i of
 * (x[i + 2 m] - 2 x[i + m] + x[i])^2, divided by 2 (m t)^2 (N - 2 m). One pass for each factor, no memory of its own.
 *
 * <p>Source: W. J. Riley, Handbook of Frequency Stability Analysis, NIST Special Publication 1065, 2008, overlapping Allan
 * variance (formula from memory, confirmed by the printed figures of AllanPublishedTest).
 *
 * @param deviation fractional; 0 or above
 * @param terms second differences in the sum, N - 2 m; above 0
 */
public record AllanDeviation(double deviation, int terms) {
    public AllanDeviation {
        if (!(deviation >= 0) || !(terms > 0)) {
            throw new IllegalArgumentException("Allan deviation " + deviation + " of " + terms + " terms");
        }
    }

    /**
     * From phase values. A constant and a line in them have no effect but for rounding: take a large line out before.
     *
     * @param spacing between two values, in the unit of the phase; above 0
     * @param factor averaging factor, from 1 to (values - 1) / 2
     */
    public static AllanDeviation ofPhase(double[] phase, double spacing, int factor) {
        if (factor < 1 || phase.length - 2L * factor < 1 || !(spacing > 0)) {
            throw new IllegalArgumentException(
                    "averaging factor " + factor + " for " + phase.length + " phase values at a spacing of " + spacing);
        }
        int terms = phase.length - 2 * factor;
        double squares = 0;
        for (int i = 0; i < terms; i++) {
            double second = phase[i + 2 * factor] - 2 * phase[i + factor] + phase[i];
            squares += second * second;
        }
        double averaging = factor * spacing;
        return new AllanDeviation(Math.sqrt(squares / (2.0 * terms)) / averaging, terms);
    }

    /**
     * From fractional frequency values, each the mean over one spacing: they are summed, less their mean, to phase values, one
     * more than there are frequencies.
     *
     * @param factor averaging factor, from 1 to half the number of values
     */
    public static AllanDeviation ofFrequency(double[] frequency, int factor) {
        double mean = 0;
        for (double value : frequency) {
            mean += value / frequency.length;
        }
        double[] phase = new double[frequency.length + 1];
        for (int i = 0; i < frequency.length; i++) {
            phase[i + 1] = phase[i] + (frequency[i] - mean);
        }
        return ofPhase(phase, 1, factor);
    }
}
