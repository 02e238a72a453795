package org.steadyshaft.speed;

import org.steadyshaft.signal.DoubleSeries;

/**
 * How unevenly the magnet poles of the tacho are spaced.
 *
 * @param pitchDeviationPercent for each pole pair of a turn, by how much its angle is larger than the even share [%]; the
 *     sum is 0; where the turn begins is arbitrary
 * @param standardErrorPercent typical standard error of one of them
 * @param turns turns it was learnt from
 */
public record PolePattern(DoubleSeries pitchDeviationPercent, double standardErrorPercent, int turns) {
    public PolePattern {
        if (!(standardErrorPercent >= 0) || turns < 1) {
            throw new IllegalArgumentException(
                    "pattern with error " + standardErrorPercent + " from " + turns + " turns");
        }
    }

    /** Angle of a pole pair as a multiple of the even share. */
    double pitch(int position) {
        return 1 + pitchDeviationPercent.get(position) / 100;
    }

    /** Root mean square of the deviations [%]. */
    public double rmsPercent() {
        return Math.sqrt(
                pitchDeviationPercent.stream().map(d -> d * d).average().orElse(0));
    }

    /** Largest deviation [%], without sign. */
    public double largestPercent() {
        return pitchDeviationPercent.stream().map(Math::abs).max().orElse(0);
    }
}
