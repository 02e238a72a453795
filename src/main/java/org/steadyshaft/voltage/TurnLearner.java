package org.steadyshaft.voltage;

import java.util.List;
import java.util.Optional;

/** Learns a turn's voltage from several pieces, of which each may count from another pole: each is turned to agree with the first. */
final class TurnLearner {
    private static final double TURN = 2 * Math.PI;

    private final List<VoltagePiece> pieces;
    private final int orders;

    TurnLearner(List<VoltagePiece> pieces, int orders) {
        this.pieces = pieces;
        this.orders = orders;
    }

    /** @param all whether every sample counts, or only those of usual level */
    Optional<TurnVoltage> learn(boolean all) {
        TurnAverage together = null;
        for (VoltagePiece piece : pieces) {
            TurnAverage own = average(piece, all);
            Optional<TurnVoltage> turn = own.turn();
            if (turn.isEmpty()) {
                continue;
            }
            if (together == null) {
                together = own;
                continue;
            }
            int poles = bestTurn(together.turn().orElseThrow(), turn.get(), piece.polePairs());
            if (poles != 0) {
                piece.turnBy(poles);
                own = average(piece, all);
            }
            together.add(own);
        }
        return together == null ? Optional.empty() : together.turn();
    }

    private TurnAverage average(VoltagePiece piece, boolean all) {
        TurnAverage average = new TurnAverage(orders);
        if (all) {
            piece.learnAll(average);
        } else {
            piece.learn(average);
        }
        return average;
    }

    /** By how many poles the second must be turned to agree best: largest sum of products of their coefficients. */
    private static int bestTurn(TurnVoltage first, TurnVoltage second, int polePairs) {
        int best = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (int pole = 0; pole < polePairs; pole++) {
            double sum = 0;
            for (int k = 1; k <= first.orders(); k++) {
                double turn = TURN * pole * k / polePairs;
                double c = second.cosine(k) * Math.cos(turn) - second.sine(k) * Math.sin(turn);
                double s = second.sine(k) * Math.cos(turn) + second.cosine(k) * Math.sin(turn);
                sum += first.cosine(k) * c + first.sine(k) * s;
            }
            if (sum > most + 1e-9 * Math.abs(most)) {
                most = sum;
                best = pole;
            }
        }
        return best;
    }
}
