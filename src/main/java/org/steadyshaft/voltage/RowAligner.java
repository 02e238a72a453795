package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Turns the angles of the rows so that all begin at the same pole: behind a break nobody knows how many cycles went by. The uneven poles
 * tell; where they are even any pole will do. Learns the turn's voltage on the way.
 */
final class RowAligner {
    private final int polePairs;
    private final int orders;

    RowAligner(int polePairs, int orders) {
        this.polePairs = polePairs;
        this.orders = orders;
    }

    /** The turn's voltage over all pieces. */
    TurnVoltage align(List<AnglePiece> pieces, List<Integer> row) {
        Map<Integer, List<AnglePiece>> rows = new LinkedHashMap<>();
        for (int i = 0; i < pieces.size(); i++) {
            rows.computeIfAbsent(row.get(i), r -> new ArrayList<>()).add(pieces.get(i));
        }
        if (rows.size() > 1) {
            List<AnglePiece> longest = rows.values().stream()
                    .max(Comparator.comparingDouble(RowAligner::seconds))
                    .orElseThrow();
            TurnVoltage reference = turn(longest);
            for (List<AnglePiece> one : rows.values()) {
                if (one != longest) {
                    double angle = best(reference, turn(one));
                    one.forEach(piece -> piece.turn(angle));
                }
            }
        }
        return turn(pieces);
    }

    private static double seconds(List<AnglePiece> pieces) {
        return pieces.stream().mapToDouble(AnglePiece::seconds).sum();
    }

    /** Least squares of the orders and an offset alone. */
    private TurnVoltage turn(List<AnglePiece> pieces) {
        TurnVoltage none = TurnVoltage.of(new double[orders], new double[orders]);
        VoltageFit fit = new VoltageFit(pieces, polePairs, none);
        fit.settle();
        return fit.turn();
    }

    /** The whole number of poles, as an angle, by which a row must be turned to be most like the reference. */
    private double best(TurnVoltage reference, TurnVoltage turn) {
        double pole = 2 * Math.PI / polePairs;
        double best = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (int s = 0; s < polePairs; s++) {
            double like = 0;
            for (int q = 1; q <= orders; q++) {
                if (q % polePairs != 0) {
                    double re = turn.cosine(q) * reference.cosine(q) + turn.sine(q) * reference.sine(q);
                    double im = turn.cosine(q) * reference.sine(q) - turn.sine(q) * reference.cosine(q);
                    like += re * Math.cos(q * s * pole) + im * Math.sin(q * s * pole);
                }
            }
            if (like > most) {
                most = like;
                best = s * pole;
            }
        }
        return best;
    }
}
