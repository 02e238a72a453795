package org.steadyshaft.compare;

import java.util.Objects;
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
 */
public record Sag(
        String circuit,
        String setting,
        String load,
        SpeedBand band,
        double lightRpm,
        double loadedRpm,
        Regulation regulation) {
    public Sag {
        Objects.requireNonNull(regulation, "regulation");
    }
}
