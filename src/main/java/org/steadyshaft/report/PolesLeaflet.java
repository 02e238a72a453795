package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.poles.HandTurn;
import org.steadyshaft.poles.PoleCount;
import org.steadyshaft.poles.Strobe;

/** A count of pole pairs in words. */
public final class PolesLeaflet {
    private static final String CAUTION =
            "Turn the shaft by hand with the motor unplugged and its harness off: the tacho's winding may share a connector with"
                    + " mains parts, and with a controller that is not isolated it is mains. Keep fingers, hair and sleeves away from belt"
                    + " and pulley. Where local codes reserve work on such machines, leave it to licensed people.";

    /** So many of the speeds at which marks stand still are named. */
    private static final int STANDING = 4;

    private PolesLeaflet() {}

    /**
     * @param byMarks whether a channel marked the turns
     * @param wheelTurns turns of the driven wheel meanwhile; absent where nobody counted
     */
    public static Leaflet of(PoleCount count, boolean byMarks, Optional<Double> wheelTurns, Optional<Strobe> strobe) {
        List<Leaflet.Section> sections = new ArrayList<>();
        sections.add(Leaflet.Section.of("How it was counted", counted(count, byMarks)));
        if (!count.isTold()) {
            sections.add(Leaflet.Section.of("What to record instead", List.of(instead(count))));
        }
        wheelTurns.ifPresent(turns -> sections.add(Leaflet.Section.of("Belt", List.of(belt(count.turns(), turns)))));
        strobe.ifPresent(s -> sections.add(strobe(s)));
        return new Leaflet("Pole pairs of a tacho", lead(count), sections, CAUTION);
    }

    /** Marks under a lamp alone. */
    public static Leaflet of(Strobe strobe) {
        return new Leaflet(
                "Marks under a lamp",
                String.format(
                        Locale.ROOT,
                        "%d marks under a lamp on %.0f Hz seem to stand still at %s rpm, and at every whole multiple of that.",
                        strobe.marks(),
                        strobe.mainsHz(),
                        Numbers.significant(strobe.rpm(), 6)),
                List.of(strobe(strobe)),
                "A wheel that seems to stand still turns. Keep hands, hair and sleeves away, and use a lamp that does not flicker for work.");
    }

    private static String lead(PoleCount count) {
        if (count.isTold()) {
            int pairs = count.candidates().get(0);
            return "The tacho has " + pairs + (pairs == 1 ? " pole pair" : " pole pairs") + ": write pole_pairs "
                    + pairs + " into the run sheet.";
        }
        return "The number of pole pairs cannot be told from this recording: " + why(count) + ".";
    }

    private static String why(PoleCount count) {
        HandTurn turn = count.turn();
        if (turn.cycles() == 0) {
            return "nothing in it swings as a tacho that turns does";
        }
        if (!turn.backSeconds().isEmpty()) {
            return "the shaft was turned back, or the wave broke off, at "
                    + CheckWords.list(turn.backSeconds().stream()
                            .limit(3)
                            .map(t -> Numbers.fixed(t, 1) + " s")
                            .toList());
        }
        if (!turn.wasQuickEnough()) {
            return "half a swing took " + Numbers.significant(turn.slowestSeconds(), 2) + " s, too slow to be followed";
        }
        if (!count.isTrusted()) {
            return "its swings are not alike, as a tacho's are";
        }
        List<Integer> candidates = count.candidates();
        if (candidates.isEmpty()) {
            return "no whole number fits " + Numbers.significant(turn.cycles(), 4) + " cycles in "
                    + Numbers.significant(count.turns(), 4) + " turns; the turns may be miscounted";
        }
        return "any number from " + candidates.get(0) + " to " + candidates.get(candidates.size() - 1) + " fits";
    }

    private static List<String> counted(PoleCount count, boolean byMarks) {
        HandTurn turn = count.turn();
        List<String> words = new ArrayList<>();
        words.add(
                String.format(
                        Locale.ROOT,
                        "%s cycles in %s s and %s %s: %s to %s a turn. %s",
                        Numbers.significant(turn.cycles(), 5),
                        Numbers.significant(turn.seconds(), 3),
                        Numbers.significant(count.turns(), 4),
                        count.turns() == 1 ? "turn" : "turns",
                        Numbers.significant(count.low(), 3),
                        Numbers.significant(count.high(), 3),
                        byMarks
                                ? "The turns were marked by a channel."
                                : "The turns are yours: a mark on the shaft set back to its place within ten degrees is reckoned with."));
        words.add(
                "What is counted is the tacho's flux, the integral of its voltage, which swings alike however unevenly the shaft is"
                        + " turned; that it was turned back shows, unless it turned right at a pole.");
        return words;
    }

    private static String instead(PoleCount count) {
        return "Turn the shaft one way only, " + Math.max(10, count.turnsNeeded())
                + " whole turns, a turn in one or two seconds, from a mark back to the same mark, and say --turns. A recorder that blocks"
                + " slow voltages (most sound cards) needs the brisker turning.";
    }

    private static String belt(double turns, double wheelTurns) {
        double ratio = turns / wheelTurns;
        double off = ratio * Math.hypot(PoleCount.TURNS_OFF / turns, PoleCount.TURNS_OFF / wheelTurns);
        return "belt_ratio " + Numbers.within(ratio, ratio - off, ratio + off) + " (\u00b1 "
                + Numbers.significant(off, 1)
                + "): turns of the motor for one of the wheel. More turns tell it better.";
    }

    private static Leaflet.Section strobe(Strobe strobe) {
        return Leaflet.Section.of(
                "Marks under a lamp",
                List.of(
                        "It lights up " + Numbers.significant(2 * strobe.mainsHz(), 3) + " times a second: "
                                + strobe.marks() + " marks seem to stand still at "
                                + CheckWords.list(strobe.standing(STANDING).stream()
                                        .map(rpm -> Numbers.significant(rpm, 6))
                                        .toList())
                                + " rpm and so on. By eye alone one cannot be told from another: begin slowly, or use two numbers of marks.",
                        "Lamps with LEDs may not flicker, or may at another rate."));
    }
}
