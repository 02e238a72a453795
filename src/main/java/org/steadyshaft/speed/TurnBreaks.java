package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;

/**
 * Recognises a wheel with missing teeth or magnets: the row of cycles is broken at the same places of every turn, by the same whole
 * number of pitches. Such a break is no loss of signal but a mark of the turn; it is filled with crossings at even distances, so that
 * cycles count on through it. What the wave beside the break is bent comes back every turn and is learnt with the pattern of the poles.
 *
 * <p>Wheels such as 60-2, 36-1, 36-2-1 and 12-1 teeth are common practice in engine control.
 */
public final class TurnBreaks {
    /** Pitches in the longest break: two teeth missing leave three. */
    private static final int MOST_PITCHES = 4;

    /** A break may differ from a whole number of pitches by this much: the wave beside it is bent. */
    private static final double OFF_WHOLE = 0.35;

    /** Breaks a turn that are looked for. */
    private static final int MOST_BREAKS_A_TURN = 4;

    private static final int FEWEST_TURNS = 6;

    /**
     * A turn is a whole number of its own pitches, within this much of one, in the median over the turns: what is plucked or knocked
     * evenly comes back at any number of waves.
     */
    private static final double OFF_WHOLE_TURN = 0.1;

    private static final int SHORT_ROW = 4;
    private static final int MOST_PITCHES_A_TURN = 400;
    private static final int FEWEST_PITCHES_A_TURN = 3;

    /** Share of the breaks that must fit the pattern; the others may be gaps of their own. */
    private static final double FITTING = 0.9;

    /**
     * A wheel with breaks, and its cycles.
     *
     * @param cycles the crossings, those in the breaks among them
     * @param pitchesATurn teeth or pole pairs a turn, missing ones counted
     * @param missingATurn how many of them are missing
     * @param filled which crossings were put into breaks, by their index
     * @param turnStarts which crossings stand first behind the break that marks the turn, by their index, in order
     */
    public record Found(
            CycleTimes cycles, int pitchesATurn, int missingATurn, Set<Integer> filled, List<Integer> turnStarts) {
        public Found {
            filled = Set.copyOf(filled);
            turnStarts = List.copyOf(turnStarts);
            if (missingATurn < 1 || pitchesATurn <= missingATurn) {
                throw new IllegalArgumentException(missingATurn + " of " + pitchesATurn + " missing");
            }
        }
    }

    /** A break of a whole number of pitches between two segments. */
    private record Break(int segment, int pitches, int fromLast) {
        boolean isLike(Break other) {
            return pitches == other.pitches && fromLast == other.fromLast;
        }
    }

    /** Looks for breaks that come back every turn; empty where there are none. */
    public Optional<Found> find(CycleTimes cycles) {
        List<Break> breaks = breaks(cycles);
        for (int perTurn = 1; perTurn <= MOST_BREAKS_A_TURN; perTurn++) {
            if (repeats(breaks, perTurn)) {
                return found(cycles, breaks, perTurn);
            }
        }
        return Optional.empty();
    }

    /** Breaks of whole pitches, each with the pitches since the one before; a break of anything else starts the count anew. */
    private static List<Break> breaks(CycleTimes cycles) {
        List<Break> breaks = new ArrayList<>();
        int since = -1;
        for (int segment = 0; segment + 1 < cycles.segments(); segment++) {
            since = since < 0 ? since : since + cycles.cyclesOf(segment);
            int pitches = pitches(cycles, segment);
            if (pitches > 1) {
                breaks.add(new Break(segment, pitches, since < 0 ? -1 : since + pitches));
                since = 0;
            } else {
                since = -1;
            }
        }
        return breaks;
    }

    /** Pitches from the end of a segment to the next one, 2 to {@link #MOST_PITCHES}; 0 where it is no whole number of them. */
    private static int pitches(CycleTimes cycles, int segment) {
        int last = cycles.endOf(segment) - 1;
        int next = cycles.firstOf(segment + 1);
        double before = pitchSeconds(cycles, segment);
        double after = pitchSeconds(cycles, segment + 1);
        double count = (cycles.timeSeconds(next) - cycles.timeSeconds(last)) / (0.5 * (before + after));
        int whole = (int) Math.rint(count);
        return whole >= 2 && whole <= MOST_PITCHES && Math.abs(count - whole) < OFF_WHOLE ? whole : 0;
    }

    private static double pitchSeconds(CycleTimes cycles, int segment) {
        double seconds = cycles.timeSeconds(cycles.endOf(segment) - 1) - cycles.timeSeconds(cycles.firstOf(segment));
        return seconds / cycles.cyclesOf(segment);
    }

    /** Whether breaks so many places apart are alike, over enough turns, and no two neighbours within a turn less often. */
    private static boolean repeats(List<Break> breaks, int perTurn) {
        int alike = 0;
        int pairs = 0;
        for (int i = perTurn; i < breaks.size(); i++) {
            boolean counted = breaks.get(i).fromLast > 0 && breaks.get(i - perTurn).fromLast > 0;
            pairs += counted ? 1 : 0;
            alike += counted && breaks.get(i).isLike(breaks.get(i - perTurn)) ? 1 : 0;
        }
        return alike >= FEWEST_TURNS * perTurn
                && alike >= FITTING * pairs
                && alike >= FITTING * (breaks.size() - perTurn - 1);
    }

    private static Optional<Found> found(CycleTimes cycles, List<Break> breaks, int perTurn) {
        // the turn that is repeated most often: any run of perTurn breaks that are like those a turn before
        int turn = 0;
        int missing = 0;
        Break mark = null;
        for (int i = 2 * perTurn - 1; i < breaks.size() && turn == 0; i++) {
            boolean alike = true;
            int pitches = 0;
            int lost = 0;
            for (int k = 0; k < perTurn; k++) {
                Break one = breaks.get(i - k);
                alike &= one.fromLast > 0 && one.isLike(breaks.get(i - k - perTurn));
                pitches += one.fromLast;
                lost += one.pitches - 1;
            }
            turn = alike ? pitches : 0;
            missing = alike ? lost : 0;
            mark = breaks.get(i);
        }
        // a wheel of few teeth has no pitch that the break does not bend
        double offWhole = turn / perTurn > SHORT_ROW ? OFF_WHOLE_TURN : OFF_WHOLE * perTurn;
        if (turn > 0 && Math.abs(turnInPitches(cycles, breaks, perTurn) - turn) > offWhole) {
            return Optional.empty();
        }
        if (turn < FEWEST_PITCHES_A_TURN || turn > MOST_PITCHES_A_TURN || missing >= turn) {
            return Optional.empty();
        }
        return Optional.of(filled(cycles, breaks, mark, turn, missing));
    }

    /** Median over the turns of their length by that of an undisturbed pitch in them. */
    private static double turnInPitches(CycleTimes cycles, List<Break> breaks, int perTurn) {
        List<Double> turns = new ArrayList<>();
        for (int i = perTurn; i < breaks.size(); i++) {
            double sum = 0;
            int pitches = 0;
            boolean whole = true;
            for (int k = 0; k < perTurn; k++) {
                Break one = breaks.get(i - k);
                whole &= one.fromLast > 0;
                int segment = one.segment;
                // the wave beside a break is bent
                int aside = cycles.cyclesOf(segment) > SHORT_ROW ? 2 : 0;
                int first = cycles.firstOf(segment) + aside;
                int last = cycles.endOf(segment) - 1 - aside;
                sum += cycles.timeSeconds(last) - cycles.timeSeconds(first);
                pitches += last - first;
            }
            if (whole && pitches > 0) {
                double from = cycles.timeSeconds(cycles.firstOf(breaks.get(i - perTurn).segment + 1));
                double to = cycles.timeSeconds(cycles.firstOf(breaks.get(i).segment + 1));
                turns.add((to - from) / (sum / pitches));
            }
        }
        return turns.isEmpty()
                ? 0
                : Robust.median(turns.stream().mapToDouble(t -> t).toArray());
    }

    private static Found filled(CycleTimes cycles, List<Break> breaks, Break mark, int turn, int missing) {
        CycleTimes.Builder all = new CycleTimes.Builder();
        Set<Integer> filled = new HashSet<>();
        List<Integer> starts = new ArrayList<>();
        int index = 0;
        int next = 0;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            for (int crossing = cycles.firstOf(segment); crossing < cycles.endOf(segment); crossing++) {
                all.add(cycles.timeSeconds(crossing));
                index++;
            }
            if (next < breaks.size() && breaks.get(next).segment == segment) {
                Break one = breaks.get(next++);
                double from = cycles.timeSeconds(cycles.endOf(segment) - 1);
                double to = cycles.timeSeconds(cycles.firstOf(segment + 1));
                for (int k = 1; k < one.pitches; k++) {
                    all.add(from + k * (to - from) / one.pitches);
                    filled.add(index++);
                }
                if (one.isLike(mark)) {
                    starts.add(index);
                }
            } else {
                all.breakHere();
            }
        }
        return new Found(all.build(), turn, missing, filled, starts);
    }
}
