package org.steadyshaft.voltage;

import java.util.Optional;
import org.steadyshaft.numeric.RealTransform;

/**
 * Learns the voltage of one turn by averaging over the angle: in each of many narrow bins of a turn W = sum(theta' v) / sum(theta'^2), the
 * least squares of v = theta' W; then the Fourier series of the bins, freed of what the width of a bin takes off. Speed, hum and noise that
 * are not locked to the shaft average out; so the angles should span many turns. One instance for one thread; {@link #add(TurnAverage)}
 * joins those of several pieces.
 */
public final class TurnAverage {
    private static final double TURN = 2 * Math.PI;

    /** Bins a period of the highest order: a bin's width takes 1 - sinc(1/24) = 0.3 % off that order, which is made good. */
    private static final int BINS_A_PERIOD = 24;

    /** From this share of empty bins on there is no turn to be told. */
    private static final double MOST_EMPTY = 0.5;

    private final int orders;
    private final int bins;
    private final double[] product;
    private final double[] square;

    /** @param orders highest shaft order to be learnt; at least 1 */
    public TurnAverage(int orders) {
        if (orders < 1 || orders > 1 << 16) {
            throw new IllegalArgumentException(orders + " shaft orders; expected 1 to " + (1 << 16));
        }
        this.orders = orders;
        this.bins = RealTransform.powerOfTwoFrom(BINS_A_PERIOD * orders);
        this.product = new double[bins];
        this.square = new double[bins];
    }

    /**
     * Adds a sample.
     *
     * @param angle of the shaft [rad]
     * @param volts the tacho's voltage there, offset and hum taken out as far as known
     * @param angularSpeed theta' [rad/s]
     */
    public void add(double angle, double volts, double angularSpeed) {
        double turns = angle * (1 / TURN);
        int bin = Math.min(bins - 1, (int) ((turns - Math.floor(turns)) * bins));
        product[bin] += angularSpeed * volts;
        square[bin] += angularSpeed * angularSpeed;
    }

    /** Adds what another one has gathered. */
    public void add(TurnAverage other) {
        if (other.orders != orders) {
            throw new IllegalArgumentException(other.orders + " orders added to " + orders);
        }
        for (int i = 0; i < bins; i++) {
            product[i] += other.product[i];
            square[i] += other.square[i];
        }
    }

    /** The turn's voltage; empty where half of the turn was never seen. */
    public Optional<TurnVoltage> turn() {
        double[] mean = new double[bins];
        int empty = 0;
        for (int i = 0; i < bins; i++) {
            empty += square[i] > 0 ? 0 : 1;
            mean[i] = square[i] > 0 ? product[i] / square[i] : Double.NaN;
        }
        if (empty > MOST_EMPTY * bins) {
            return Optional.empty();
        }
        bridge(mean);
        new RealTransform(bins).forward(mean);
        double[] cosine = new double[orders];
        double[] sine = new double[orders];
        for (int k = 1; k <= orders; k++) {
            double half = Math.PI * k / bins;
            double scale = 2.0 / bins * half / Math.sin(half);
            double re = scale * mean[2 * k];
            double im = scale * mean[2 * k + 1];
            cosine[k - 1] = re * Math.cos(half) + im * Math.sin(half);
            sine[k - 1] = re * Math.sin(half) - im * Math.cos(half);
        }
        return Optional.of(TurnVoltage.of(cosine, sine));
    }

    /** Fills empty bins on straight lines between their neighbours, round the turn. */
    private static void bridge(double[] mean) {
        int n = mean.length;
        int first = 0;
        while (Double.isNaN(mean[first])) {
            first++;
        }
        int before = first;
        for (int i = first + 1; i <= first + n; i++) {
            double next = mean[i % n];
            if (!Double.isNaN(next)) {
                for (int j = before + 1; j < i; j++) {
                    mean[j % n] = mean[before % n] + (next - mean[before % n]) * (j - before) / (i - before);
                }
                before = i;
            }
        }
    }
}
