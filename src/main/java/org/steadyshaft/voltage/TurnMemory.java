package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hipparchus.complex.Complex;

/**
 * What other recordings of a tacho say of the orders that a recording cannot tell from the mains. Their turns are laid over its own: gain
 * and angle by the fundamental, the pole by the uneven poles. How badly the orders that both tell agree says how far the others are to be
 * trusted; nothing is trusted further.
 */
final class TurnMemory {
    /** Orders, beside the tacho's harmonics, that must be clear in both. */
    private static final int FEWEST_CLEAR = 3;

    /** Another pole fits as well where it leaves less than so many times the best. Our own figure. */
    private static final double AS_GOOD = 4;

    /** A recording whose turn fits worse than the best by more than this hardly counts: another tacho, or much noise. */
    private static final double COUNTS = 10;

    /** Ripple shows beside so many of the tacho's harmonics at least; beside higher ones an order may stay unknown. */
    private static final int BEARING = 2;

    /** Where two angles fit alike, they may differ by so many times the misfit's variance: what both say is then the same. */
    private static final double MOST_APART = 4;

    /** What is learnt is no better than this share of the fundamental. */
    private static final double LEAST_SHARE = 1e-5;

    private final double[] cosine;
    private final double[] sine;
    private final double[] variance;
    private final int recordings;

    private TurnMemory(int orders, int recordings) {
        this.cosine = new double[orders];
        this.sine = new double[orders];
        this.variance = new double[orders];
        this.recordings = recordings;
        Arrays.fill(variance, Double.POSITIVE_INFINITY);
    }

    /** Knows nothing of so many orders. */
    static TurnMemory none(int orders) {
        return new TurnMemory(orders, 0);
    }

    /** How many recordings have a say. */
    int recordings() {
        return recordings;
    }

    /** Whether an order is known, 1 or more. */
    boolean knows(int order) {
        return order <= variance.length && Double.isFinite(variance[order - 1]);
    }

    double cosine(int order) {
        return cosine[order - 1];
    }

    double sine(int order) {
        return sine[order - 1];
    }

    /** Variance of either part; infinite where nothing is known. */
    double variance(int order) {
        return variance[order - 1];
    }

    /** A turn with the known orders in place of its own. */
    TurnVoltage over(TurnVoltage own) {
        double[] c = new double[own.orders()];
        double[] s = new double[own.orders()];
        for (int q = 1; q <= own.orders(); q++) {
            c[q - 1] = knows(q) ? cosine(q) : own.cosine(q);
            s[q - 1] = knows(q) ? sine(q) : own.sine(q);
        }
        return TurnVoltage.of(c, s);
    }

    /**
     * What others know of the orders of a turn that ripple may have changed.
     *
     * @param own the turn as its recording has it, with what is not to be trusted in it
     * @return empty where none can be laid over it, or the tacho's own harmonics are touched
     */
    static Optional<TurnMemory> of(LearntTurn own, List<LearntTurn> others) {
        boolean harmonic = own.swung().stream().anyMatch(q -> q % own.polePairs() == 0);
        if (harmonic || own.swung().isEmpty()) {
            return Optional.empty();
        }
        List<Laid> laid = new ArrayList<>();
        for (LearntTurn other : others) {
            if (other.polePairs() == own.polePairs() && !other.swung().contains(own.polePairs())) {
                lay(own, other).ifPresent(laid::add);
            }
        }
        double best = laid.stream().mapToDouble(Laid::misfit).min().orElse(0);
        int counting =
                (int) laid.stream().filter(l -> l.misfit() < COUNTS * best).count();
        TurnMemory memory = new TurnMemory(own.turn().orders(), counting);
        own.swung().forEach(q -> memory.learn(q, laid));
        int most = own.polePairs() * BEARING;
        boolean all = own.swung().stream().filter(q -> q <= most).allMatch(memory::knows);
        return all ? Optional.of(memory) : Optional.empty();
    }

    private void learn(int order, List<Laid> laid) {
        Complex sum = Complex.ZERO;
        double weights = 0;
        for (Laid one : laid) {
            if (one.turn.isClear(order)) {
                double weight = 1 / one.misfit;
                sum = sum.add(one.at(order).multiply(weight));
                weights += weight;
            }
        }
        if (weights > 0) {
            Complex mean = sum.divide(weights);
            cosine[order - 1] = mean.getRealPart();
            sine[order - 1] = -mean.getImaginaryPart();
            variance[order - 1] = 1 / weights;
        }
    }

    /** Amplitude of an order as a complex number: its real part is the cosine's, less its imaginary part the sine's. */
    private static Complex at(TurnOrders turn, int order) {
        return new Complex(turn.cosine(order), -turn.sine(order));
    }

    /**
     * A turn laid over another.
     *
     * @param turn the turn
     * @param gain what it is to be multiplied with
     * @param angle by how much it begins later [rad]
     * @param rival the angle that fits nearly as well, or the same
     * @param misfit variance of either part of an order
     */
    private record Laid(LearntTurn turn, double gain, double angle, double rival, double misfit) {
        Complex at(int order) {
            return at(order, angle);
        }

        private Complex at(int order, double turned) {
            return TurnMemory.at(turn.turn(), order)
                    .multiply(new Complex(0, order * turned).exp())
                    .multiply(gain);
        }

        /** Whether it makes no difference for some orders which of the angles is the right one. */
        boolean isClearOf(Set<Integer> orders) {
            double most = MOST_APART * misfit;
            return orders.stream().filter(q -> q <= turn.turn().orders()).allMatch(q -> {
                double apart = at(q).subtract(at(q, rival)).norm();
                return apart * apart < most;
            });
        }
    }

    private static Optional<Laid> lay(LearntTurn own, LearntTurn other) {
        int poles = own.polePairs();
        Complex ratio = at(own.turn(), poles).divide(at(other.turn(), poles));
        double gain = ratio.norm();
        List<Integer> clear = new ArrayList<>();
        for (int q = 1; q <= own.turn().orders(); q++) {
            if (q % poles != 0 && own.isClear(q) && other.isClear(q)) {
                clear.add(q);
            }
        }
        if (clear.size() < FEWEST_CLEAR) {
            return Optional.empty();
        }
        double best = Double.POSITIVE_INFINITY;
        double second = Double.POSITIVE_INFINITY;
        double angle = 0;
        double rival = 0;
        for (int s = 0; s < poles; s++) {
            double turned = (ratio.getArgument() + 2 * Math.PI * s) / poles;
            Laid tried = new Laid(other, gain, turned, turned, 0);
            double squares = 0;
            for (int q : clear) {
                double off = at(own.turn(), q).subtract(tried.at(q)).norm();
                squares += off * off;
            }
            if (squares < best) {
                second = best;
                rival = angle;
                best = squares;
                angle = turned;
            } else if (squares < second) {
                second = squares;
                rival = turned;
            }
        }
        double least = LEAST_SHARE * own.turn().amplitude(poles);
        double misfit = Math.max(least * least, 0.5 * best / clear.size());
        Laid laid = new Laid(other, gain, angle, second < AS_GOOD * best ? rival : angle, misfit);
        return Optional.of(laid).filter(l -> l.isClearOf(own.swung()));
    }
}
