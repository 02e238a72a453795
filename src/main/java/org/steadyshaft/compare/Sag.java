package org.steadyshaft.compare;

import java.util.List;
import java.util.Objects;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.response.Regulation;

/**
 * How much a circuit slows under a load at one setting.
 *
 * @param circuit the circuit
 * @param setting the setting
 * @param load the load
 * @param lightRpm mean speed without load
 * @param loadedRpm mean speed with it
 * @param regulation the sag, referred to the loaded speed, with its standard uncertainty; what the clock adds is common to both speeds
 * @param degrees degrees of freedom of that uncertainty: few where it comes from how few runs differ
 * @param runs the runs that it comes from
 */
public record Sag(
        String circuit,
        String setting,
        String load,
        double lightRpm,
        double loadedRpm,
        Regulation regulation,
        double degrees,
        List<Run> runs) {
    private static final double CONFIDENCE = 0.95;

    public Sag {
        if (!(degrees > 0)) {
            throw new IllegalArgumentException("degrees of freedom " + degrees);
        }
        Objects.requireNonNull(regulation, "regulation");
        runs = List.copyOf(runs);
    }

    /** The sag in per cent with its error, for tests and limits. */
    MeanEstimate estimate() {
        return new MeanEstimate(regulation.percent(), Math.max(1e-9, regulation.standardUncertaintyPercent()), degrees);
    }

    /** Lower 95 % limit of the sag [%]. */
    public double low95() {
        return estimate().interval(CONFIDENCE).low();
    }

    /** Upper 95 % limit of the sag [%]. */
    public double high95() {
        return estimate().interval(CONFIDENCE).high();
    }
}
