package org.steadyshaft.voltage;

/**
 * A tone in the recording that is no speed: pick-up of the mains, or another.
 *
 * @param hz its frequency
 * @param mainsMultiple multiple of the mains; 0 for another tone
 * @param volts amplitude [unit of the samples]
 * @param standardUncertaintyVolts its standard uncertainty
 */
public record HumLine(double hz, int mainsMultiple, double volts, double standardUncertaintyVolts) {
    public HumLine {
        if (!(hz > 0) || !(volts >= 0) || !(standardUncertaintyVolts >= 0)) {
            throw new IllegalArgumentException("tone of " + volts + " at " + hz + " Hz");
        }
    }
}
