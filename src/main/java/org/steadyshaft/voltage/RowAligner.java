package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

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

    /** The turn's voltage over all pieces; empty where they do not cover a turn. */
    Optional<TurnVoltage> align(List<AnglePiece> pieces, List<Integer> row) {
        List<TurnAverage> averages = new ArrayList<>();
        List<Double> seconds = new ArrayList<>();
        int last = -1;
        for (int i = 0; i < pieces.size(); i++) {
            if (row.get(i) != last) {
                averages.add(new TurnAverage(orders));
                seconds.add(0.0);
                last = row.get(i);
            }
            gather(pieces.get(i), averages.get(averages.size() - 1));
            seconds.set(seconds.size() - 1, seconds.get(seconds.size() - 1) + pieces.get(i).seconds());
        }
        int longest = 0;
        for (int r = 1; r < seconds.size(); r++) {
            longest = seconds.get(r) > seconds.get(longest) ? r : longest;
        }
        Optional<TurnVoltage> reference = averages.isEmpty() ? Optional.empty() : averages.get(longest).turn();
        if (reference.isEmpty() || averages.size() == 1) {
            return reference;
        }
        TurnAverage all = new TurnAverage(orders);
        int at = -1;
        last = -1;
        double turned = 0;
        for (int i = 0; i < pieces.size(); i++) {
            if (row.get(i) != last) {
                at++;
                last = row.get(i);
                turned = averages.get(at).turn().map(t -> best(reference.get(), t)).orElse(0.0);
            }
            pieces.get(i).turn(turned);
            gather(pieces.get(i), all);
        }
        return all.turn();
    }

    private static void gather(AnglePiece piece, TurnAverage into) {
        double sum = 0;
        for (double v : piece.volts) {
            sum += v;
        }
        double offset = sum / piece.samples();
        for (int i = 0; i < piece.samples(); i++) {
            into.add(piece.angle[i], piece.volts[i] - offset, piece.radPerSecond[i]);
        }
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
