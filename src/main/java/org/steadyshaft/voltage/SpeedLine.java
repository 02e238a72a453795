package org.steadyshaft.voltage;

/**
 * A line of the speed that was read from the waveform.
 *
 * @param hz its true frequency
 * @param mainsMultiple multiple of the mains on which it was fitted; 0 for a line found elsewhere
 * @param amplitudePercent 0 to peak, of the mean speed, the noise's own share taken off; 0 or more
 * @param standardUncertaintyPercent its standard uncertainty, from the fit's covariance and the noise around it
 * @param inflation by how much what stands beside it (orders, pick-up, other lines) makes its variance larger; 1 for a line alone
 * @param overTone how much more of the rest it explains than a tone at one of its sidebands would, in units of the noise's variance
 */
public record SpeedLine(
        double hz,
        int mainsMultiple,
        double amplitudePercent,
        double standardUncertaintyPercent,
        double inflation,
        double overTone) {
    public SpeedLine {
        if (!(hz > 0) || !(amplitudePercent >= 0) || !(standardUncertaintyPercent >= 0) || mainsMultiple < 0) {
            throw new IllegalArgumentException(
                    "speed line of " + amplitudePercent + " +- " + standardUncertaintyPercent + " % at " + hz + " Hz");
        }
    }

    /** Expanded uncertainty, k = 2 [%]. */
    public double expandedPercent() {
        return 2 * standardUncertaintyPercent;
    }
}
