package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;

/** Mains pick-up of a piece block by block: cosine and sine at the mains and at twice the mains; NaN where a line was not looked at. */
public final class HumTrack {
    private final double firstSeconds;
    private final double hopSeconds;
    private final List<double[]> parts = new ArrayList<>();

    HumTrack(double firstSeconds, double hopSeconds) {
        this.firstSeconds = firstSeconds;
        this.hopSeconds = hopSeconds;
    }

    void add(double[] coefficients) {
        parts.add(coefficients);
    }

    public int size() {
        return parts.size();
    }

    /** Middle of a block [s]. */
    public double timeSeconds(int block) {
        return firstSeconds + block * hopSeconds;
    }

    /** How far the pick-up moved between two blocks, in the unit of the samples; lines that are not known in both count as still. */
    public double change(int from, int to) {
        double sum = 0;
        for (int i = 0; i < 4; i++) {
            double d = parts.get(to)[i] - parts.get(from)[i];
            sum += Double.isNaN(d) ? 0 : d * d;
        }
        return Math.sqrt(sum);
    }
}
