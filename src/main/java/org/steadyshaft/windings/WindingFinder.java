package org.steadyshaft.windings;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Tells what lies between the contacts of an unknown motor. A resistance alone proves nothing: an answer is known only where a second test
 * agrees, and where the ranges of several windings hold a reading, there is none until that test is made.
 */
public final class WindingFinder {
    /** Parts add up to their whole within so much: leads and contacts add some tenths of an ohm. */
    private static final double SUM_SHARE = 0.1;

    private static final double SUM_OHMS = 0.2;

    /** A tap lies between these shares of the whole (common practice). */
    private static final double TAP_FROM = 0.30;

    private static final double TAP_TO = 0.70;

    private final Ranges ranges;

    public WindingFinder(Ranges ranges) {
        this.ranges = ranges;
    }

    /**
     * @param readings every pair at most once
     * @return an answer a reading, in their order; those to the frame that fail first
     */
    public List<Answer> find(List<Reading> readings) {
        List<Answer> answers = new ArrayList<>();
        readings.stream()
                .filter(r -> r.isToFrame() && r.ohms() < ranges.frameOhms())
                .forEach(r -> answers.add(new Answer(
                        r,
                        Answer.Kind.STOP,
                        List.of(),
                        "a contact has a path to the frame: the insulation has failed, and the frame would be live",
                        "do not use this motor; an insulation test is for licensed practice")));
        for (Reading reading : readings) {
            if (reading.isToFrame()) {
                if (reading.ohms() >= ranges.frameOhms()) {
                    answers.add(none(
                            reading,
                            "no path to the frame that this meter shows; an insulation test is for licensed practice"));
                }
            } else {
                answers.add(answer(reading, readings));
            }
        }
        return answers;
    }

    private Answer answer(Reading reading, List<Reading> all) {
        if (reading.isOpen()) {
            return none(reading, "nothing connects these two");
        }
        if (threeWires(reading, all)) {
            return new Answer(
                    reading,
                    Answer.Kind.STOP,
                    List.of(),
                    "three contacts in the range of a tacho: three wires mean an electronic pick-up, which a meter or a voltage can destroy",
                    "stop here with these three; this program reads a tacho that makes its own voltage");
        }
        Optional<String> sum = series(reading, all);
        if (sum.isPresent()) {
            return none(reading, sum.get());
        }
        List<Winding> fitting = ranges.candidates(reading.ohms()).stream()
                .filter(w -> tested(w, reading).orElse(true))
                .toList();
        if (fitting.isEmpty()) {
            return new Answer(
                    reading,
                    Answer.Kind.OPEN,
                    List.of(),
                    "no winding of the table has this resistance and passes the tests that were made",
                    "null the leads, measure again, and see whether the brushes touch");
        }
        Optional<Winding> proven =
                fitting.stream().filter(w -> tested(w, reading).orElse(false)).findFirst();
        if (proven.isPresent()) {
            return new Answer(
                    reading,
                    Answer.Kind.KNOWN,
                    List.of(proven.get()),
                    "resistance and second test agree" + tap(reading, all),
                    "");
        }
        if (fitting.size() == 1) {
            return new Answer(
                    reading,
                    Answer.Kind.LIKELY,
                    fitting,
                    "its resistance fits nothing else" + tap(reading, all),
                    fitting.get(0).test());
        }
        return new Answer(
                reading,
                Answer.Kind.OPEN,
                fitting,
                "its resistance fits several windings" + tap(reading, all),
                String.join(
                                "; ",
                                fitting.stream()
                                        .map(w -> "for the " + w.title() + ": " + w.test())
                                        .toList())
                        + (fitting.contains(Winding.ARMATURE)
                                ? "; an armature's reading jumps while the shaft is turned by hand"
                                : ""));
    }

    private static Answer none(Reading reading, String why) {
        return new Answer(reading, Answer.Kind.NONE, List.of(), why, "");
    }

    /** What the second test says of a winding; absent where it was not made. */
    private static Optional<Boolean> tested(Winding winding, Reading reading) {
        return switch (winding) {
            case ARMATURE ->
                both(
                        reading.brushes(),
                        reading.jumps(),
                        reading.volts().filter(v -> v).map(v -> false));
            case FIELD ->
                both(
                        reading.brushes().map(b -> !b),
                        reading.jumps().filter(j -> j).map(j -> false),
                        volts(reading));
            case TACHO -> both(reading.volts(), reading.brushes().filter(b -> b).map(b -> false), Optional.empty());
            case CUT_OUT ->
                both(reading.opensWarm(), reading.jumps().filter(j -> j).map(j -> false), volts(reading));
        };
    }

    /** A voltage by hand speaks against all but a tacho. */
    private static Optional<Boolean> volts(Reading reading) {
        return reading.volts().filter(v -> v).map(v -> false);
    }

    /** One no is a no; else a yes is a yes. */
    private static Optional<Boolean> both(Optional<Boolean> first, Optional<Boolean> second, Optional<Boolean> third) {
        List<Boolean> said =
                Stream.of(first, second, third).flatMap(Optional::stream).toList();
        return said.isEmpty() ? Optional.empty() : Optional.of(!said.contains(false));
    }

    /** Whether a reading is that of two others in a row. */
    private static Optional<String> series(Reading reading, List<Reading> all) {
        for (Reading first : all) {
            for (Reading second : all) {
                boolean chain = first != reading
                        && second != reading
                        && first.touches(reading.from())
                        && second.touches(reading.to())
                        && first.other(reading.from()).equals(second.other(reading.to()))
                        && !first.isToFrame()
                        && !second.isToFrame();
                if (chain && isSum(reading.ohms(), first.ohms(), second.ohms())) {
                    return Optional.of(
                            "it is the sum of " + first.pair() + " and " + second.pair() + ": both in a row");
                }
            }
        }
        return Optional.empty();
    }

    private static boolean isSum(double whole, double first, double second) {
        return Double.isFinite(first)
                && Double.isFinite(second)
                && first > SUM_OHMS
                && second > SUM_OHMS
                && Math.abs(whole - first - second) <= Math.max(SUM_OHMS, SUM_SHARE * whole);
    }

    /** Where two parts that could be one field add up to a third reading, the contact between them may be a tap of that field. */
    private String tap(Reading reading, List<Reading> all) {
        Ranges.Range field = ranges.of().get(Winding.FIELD);
        for (Reading whole : all) {
            for (Reading rest : all) {
                boolean parts = whole != reading
                        && rest != reading
                        && rest != whole
                        && field.holds(whole.ohms())
                        && isSum(whole.ohms(), reading.ohms(), rest.ohms())
                        && shares(reading, rest, whole);
                double share = reading.ohms() / whole.ohms();
                if (parts && share >= TAP_FROM && share <= TAP_TO) {
                    return "; with " + rest.pair() + " it adds up to " + whole.pair() + ": if these are one field, "
                            + (reading.touches(whole.from()) ? reading.other(whole.from()) : reading.other(whole.to()))
                            + " is its tap";
                }
            }
        }
        return "";
    }

    private static boolean shares(Reading first, Reading second, Reading whole) {
        return first.touches(whole.from())
                        && second.touches(whole.to())
                        && first.other(whole.from()).equals(second.other(whole.to()))
                || first.touches(whole.to())
                        && second.touches(whole.from())
                        && first.other(whole.to()).equals(second.other(whole.from()));
    }

    /** Whether a reading is one of three between three contacts that all lie in the tacho's range, none the sum of the others. */
    private boolean threeWires(Reading reading, List<Reading> all) {
        Ranges.Range tacho = ranges.of().get(Winding.TACHO);
        List<Reading> fitting = all.stream()
                .filter(r -> !r.isToFrame() && !r.isOpen() && r.ohms() >= tacho.fromOhms())
                .toList();
        return fitting.contains(reading)
                && fitting.stream()
                        .anyMatch(other -> other != reading
                                && (other.touches(reading.from()) || other.touches(reading.to()))
                                && !other.volts().orElse(false)
                                && !reading.volts().orElse(false));
    }
}
