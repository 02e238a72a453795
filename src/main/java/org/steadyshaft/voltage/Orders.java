package org.steadyshaft.voltage;

import java.util.List;
import java.util.function.DoubleUnaryOperator;

/** Where the shaft's orders stand, and whether a frequency can be told from them: both turn against each other during a piece, or not. */
final class Orders {
    /** What the model leaves of an order reaches so many turns over a piece to either side: the Hann window's two, and its skirt. */
    private static final double TURNS_APART = 3;

    /** A skirt reaches so far, in turns over a piece; its other side is looked at in so many places. Our own figures. */
    private static final double SKIRT_TURNS = 16;

    private static final int SKIRT_LOOKS = 48;

    /** A wander of the speed shows so far beside the tacho's harmonics [Hz]. Our own figure. */
    private static final double WANDER_HZ = 9;

    /** What is so many times higher than the other side is no skirt: noise of a few pieces differs by less. */
    private static final double SKIRT_RATIO = 6;

    /** Every so many samples suffice for the coherence. */
    private static final int STRIDE = 32;

    /**
     * Inflation above which they are one: under a Hann window two lines n turns apart keep step by r = sin(pi n) / (pi n (1 - n^2)), and
     * 1 / (1 - r^2) is 2.5 at two thirds of a turn, 1.9 at three quarters, 1.33 at one, 1 from two on.
     */
    private static final double ONE = 2.5;

    private final List<AnglePiece> pieces;
    private final double shaftHz;
    private final double seconds;
    private final int polePairs;
    private final TurnMemory memory;

    Orders(List<AnglePiece> pieces, int polePairs) {
        this(pieces, polePairs, TurnMemory.none(0));
    }

    /** @param memory orders it knows hide nothing */
    Orders(List<AnglePiece> pieces, int polePairs, TurnMemory memory) {
        this.memory = memory;
        this.polePairs = polePairs;
        this.pieces = pieces;
        double turns = 0;
        double sum = 0;
        double squares = 0;
        for (AnglePiece piece : pieces) {
            turns += piece.shaftHz() * piece.seconds();
            sum += piece.seconds();
            squares += piece.seconds() * piece.seconds();
        }
        this.shaftHz = turns / sum;
        this.seconds = squares / sum;
    }

    int polePairs() {
        return polePairs;
    }

    double shaftHz() {
        return shaftHz;
    }

    /** Length of a usual piece [s], long ones counting for more. */
    double pieceSeconds() {
        return seconds;
    }

    /** The order nearest to a frequency; 0 for none. */
    int nearest(double hz) {
        return (int) Math.rint(hz / shaftHz);
    }

    /** Whether a frequency stands on an order that is known from other recordings. */
    boolean isKnown(double hz) {
        int order = nearest(hz);
        return order > 0 && memory.knows(order) && Math.abs(hz - order * shaftHz) < TURNS_APART / seconds;
    }

    /** Whether a frequency lies so near to an order of the mean speed that what stands there may be the order's. */
    boolean near(double hz) {
        return near(hz, 0);
    }

    /** The same for a frequency that is known but to so much [Hz]. */
    boolean near(double hz, double unsureHz) {
        int order = nearest(hz);
        return order > 0 && !memory.knows(order) && Math.abs(hz - order * shaftHz) < TURNS_APART / seconds + unsureHz;
    }

    /**
     * Whether a peak is the skirt of something else: of what stands on the nearest order, or hides within its reach; or of a slow wander
     * of the speed, which stands on both sides of the tacho's harmonics alike.
     *
     * @param height height of the spectrum at a frequency
     */
    boolean isSkirt(double hz, DoubleUnaryOperator height) {
        double order = memory.knows(Math.max(1, nearest(hz))) ? 0 : nearest(hz) * shaftHz;
        double harmonic = Math.rint(hz / (polePairs * shaftHz)) * polePairs * shaftHz;
        return isSkirt(hz, order, SKIRT_TURNS / seconds, height)
                || isSkirt(hz, harmonic, Math.max(WANDER_HZ, SKIRT_TURNS / seconds), height);
    }

    private static boolean isSkirt(double hz, double of, double reachHz, DoubleUnaryOperator height) {
        double off = hz - of;
        if (of == 0 || Math.abs(off) > reachHz) {
            return false;
        }
        double other = 0;
        for (int i = 0; i <= SKIRT_LOOKS; i++) {
            // from half as far again on the other side to halfway back
            other = Math.max(other, height.applyAsDouble(of + off * (0.5 - 2.0 * i / SKIRT_LOOKS)));
        }
        return height.applyAsDouble(hz) < SKIRT_RATIO * other;
    }

    /** Whether a line of this frequency and an order of the shaft are one, as the speed really ran. */
    boolean isOne(double hz) {
        return inflation(hz) > ONE;
    }

    /**
     * By how much the nearest order makes the variance of a line larger, if what the poles give may change slowly: 1 where line and order
     * turn against each other often.
     */
    double inflation(double hz) {
        double coherence = Math.min(1 - 1e-9, coherence(hz));
        return 1 / (1 - coherence * coherence);
    }

    /** 1 where line and nearest order keep step, 0 where they turn against each other; mean over the pieces. */
    private double coherence(double hz) {
        double sum = 0;
        double weights = 0;
        for (AnglePiece piece : pieces) {
            int order = (int) Math.rint(hz / piece.shaftHz());
            double best = order > 0 && !memory.knows(order) ? coherence(piece, hz, order) : 0;
            sum += piece.seconds() * best;
            weights += piece.seconds();
        }
        return sum / weights;
    }

    private static double coherence(AnglePiece piece, double hz, int order) {
        double re = 0;
        double im = 0;
        double all = 0;
        for (int i = 0; i < piece.samples(); i += STRIDE) {
            double weight = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / piece.samples());
            double phase = order * piece.angle[i] - 2 * Math.PI * hz * i * piece.stepSeconds;
            re += weight * Math.cos(phase);
            im += weight * Math.sin(phase);
            all += weight;
        }
        return Math.hypot(re, im) / all;
    }
}
