package org.steadyshaft.compare;

import java.util.Objects;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.response.Regulation;

/**
 * How much a circuit slows under a load at one setting.
 *
 * @param circuit the circuit
 * @param setting the setting
 * @param load the load
 * @param band band of the loaded speed
 * @param lightRpm mean speed without load
 * @param loadedRpm mean speed with it
 * @param regulation the sag, referred to the loaded speed, with its standard uncertainty
 * @param degrees degrees of freedom of that uncertainty: few where it comes from how few runs differ
 */
public record Sag(
        String circuit,
        String setting,
        String load,
        SpeedBand band,
        double lightRpm,
        double loadedRpm,
        Regulation regulation,
        double degrees) {
    public Sag {
        if (!(degrees > 0)) {
            throw new IllegalArgumentException("degrees of freedom " + degrees);
        }
        Objects.requireNonNull(regulation, "regulation");
    }

    /** The sag in per cent with its error, for tests and limits. */
    MeanEstimate estimate() {
        return new MeanEstimate(regulation.percent(), Math.max(1e-9, regulation.standardUncertaintyPercent()), degrees);
    }
}
