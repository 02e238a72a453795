package org.steadyshaft.voltage;

import java.util.Optional;
import org.steadyshaft.numeric.OrthogonalFit;
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

    /** So many bins must have been met for each unknown. */
    private static final double LEAST_FILLED = 1.3;

    private final int orders;
    private final int bins;
    private final double[] product;
    private final double[] square;

    /** Sum of the samples' angles, weighted like {@link #square}. */
    private final double[] place;

    /** @param orders highest shaft order to be learnt; at least 1 */
    public TurnAverage(int orders) {
        if (orders < 1 || orders > 1 << 16) {
            throw new IllegalArgumentException(orders + " shaft orders; expected 1 to " + (1 << 16));
        }
        this.orders = orders;
        this.bins = RealTransform.powerOfTwoFrom(BINS_A_PERIOD * orders);
        this.product = new double[bins];
        this.square = new double[bins];
        this.place = new double[bins];
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
        double share = turns - Math.floor(turns);
        int bin = Math.min(bins - 1, (int) (share * bins));
        product[bin] += angularSpeed * volts;
        square[bin] += angularSpeed * angularSpeed;
        place[bin] += angularSpeed * angularSpeed * TURN * share;
    }

    /** Adds what another one has gathered. */
    public void add(TurnAverage other) {
        if (other.orders != orders) {
            throw new IllegalArgumentException(other.orders + " orders added to " + orders);
        }
        for (int i = 0; i < bins; i++) {
            product[i] += other.product[i];
            square[i] += other.square[i];
            place[i] += other.place[i];
        }
    }

    /**
     * The turn's voltage; empty where too few angles were seen. Where every bin was met it is the transform of the bins; where some were
     * not (a speed locked to the sample rate, few turns) a least-squares fit to those that were, at the mean angles of their samples.
     */
    public Optional<TurnVoltage> turn() {
        int filled = 0;
        for (int i = 0; i < bins; i++) {
            filled += square[i] > 0 ? 1 : 0;
        }
        if (filled < LEAST_FILLED * 2 * orders) {
            return Optional.empty();
        }
        return Optional.of(filled == bins ? transformed() : fitted(filled));
    }

    private TurnVoltage transformed() {
        double[] mean = new double[bins];
        for (int i = 0; i < bins; i++) {
            mean[i] = product[i] / square[i];
        }
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
        return TurnVoltage.of(cosine, sine);
    }

    private TurnVoltage fitted(int filled) {
        double[] angle = new double[filled];
        double[] weight = new double[filled];
        double[] target = new double[filled];
        int row = 0;
        for (int i = 0; i < bins; i++) {
            if (square[i] > 0) {
                angle[row] = place[i] / square[i];
                weight[row] = Math.sqrt(square[i]);
                target[row] = product[i] / weight[row];
                row++;
            }
        }
        OrthogonalFit fit = new OrthogonalFit(target);
        for (int k = 1; k <= orders; k++) {
            double[] cosine = new double[filled];
            double[] sine = new double[filled];
            for (int i = 0; i < filled; i++) {
                cosine[i] = weight[i] * Math.cos(k * angle[i]);
                sine[i] = weight[i] * Math.sin(k * angle[i]);
            }
            fit.add(cosine);
            fit.add(sine);
        }
        double[] c = fit.coefficients();
        double[] cosine = new double[orders];
        double[] sine = new double[orders];
        for (int k = 0; k < orders; k++) {
            cosine[k] = c[2 * k];
            sine[k] = c[2 * k + 1];
        }
        return TurnVoltage.of(cosine, sine);
    }
}
