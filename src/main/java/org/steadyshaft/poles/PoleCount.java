package org.steadyshaft.poles;

import java.util.List;
import java.util.stream.IntStream;

/**
 * Which numbers of pole pairs a count allows.
 *
 * @param turn what was counted
 * @param turns how often the shaft was turned, as the user says
 * @param low lower limit of the cycles a turn
 * @param high upper limit
 */
public record PoleCount(HandTurn turn, double turns, double low, double high) {
    /** A mark is set back to its place by eye within ten degrees at both ends (our own figure) [turns]. */
    public static final double TURNS_OFF = 0.056;

    /** The extremes next to the ends are told to a quarter of a cycle each. */
    private static final double CYCLES_OFF = 0.5;

    /** So many swings of a hundred must be alike, or something else was counted. */
    private static final double LEAST_EVEN = 0.85;

    /** Beyond this a tacho is none that we know of. */
    private static final int MOST_PAIRS = 400;

    public static PoleCount of(HandTurn turn, double turns) {
        if (!(turns > TURNS_OFF) || !Double.isFinite(turns)) {
            throw new IllegalArgumentException(turns + " turns");
        }
        double middle = turn.cycles() + 0.5 * turn.endCycles();
        double off = CYCLES_OFF + 0.5 * turn.endCycles();
        return new PoleCount(
                turn, turns, Math.max(0, middle - off) / (turns + TURNS_OFF), (middle + off) / (turns - TURNS_OFF));
    }

    /** Numbers of pole pairs within the limits. */
    public List<Integer> candidates() {
        return IntStream.rangeClosed(Math.max(1, (int) Math.ceil(low)), (int) Math.min(MOST_PAIRS, Math.floor(high)))
                .boxed()
                .toList();
    }

    /** Whether the wave was that of a tacho that turned one way. */
    public boolean isTrusted() {
        return turn.cycles() > 0
                && turn.evenShare() >= LEAST_EVEN
                && turn.backSeconds().isEmpty()
                && turn.wasQuickEnough();
    }

    /** Whether there is one answer. */
    public boolean isTold() {
        return isTrusted() && candidates().size() == 1;
    }

    /** So many turns would leave one number, at about this many cycles a turn. */
    public int turnsNeeded() {
        double pairs = Math.max(1, 0.5 * (low + high));
        // (2 x off + 2 x pairs x turns off) / turns < 1
        return (int) Math.ceil(2 * (CYCLES_OFF + 0.5) + 2.2 * pairs * TURNS_OFF) + 1;
    }
}
