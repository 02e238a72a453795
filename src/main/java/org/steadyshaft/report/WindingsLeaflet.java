package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steadyshaft.windings.Answer;
import org.steadyshaft.windings.Ranges;
import org.steadyshaft.windings.Winding;

/** What the contacts of an unknown motor are, in words. */
public final class WindingsLeaflet {
    private static final String CAUTION =
            "Only with the motor unplugged, its harness off, capacitors empty and the meter's leads nulled. A contact to the frame that"
                    + " conducts, even a little, makes the frame live: leave insulation tests to licensed practice. What stands here is"
                    + " no leave to put the motor on the mains: try a winding first on a current-limited supply of 12 V at most, with"
                    + " the motor held and loaded, since a series motor without load runs away; beyond that keep to your local codes and let"
                    + " a licensed person do what they reserve to one.";

    private WindingsLeaflet() {}

    public static Leaflet of(List<Answer> answers, Ranges ranges) {
        List<List<String>> rows = answers.stream()
                .map(a -> List.of(
                        a.reading().pair(),
                        a.reading().isOpen()
                                ? "open"
                                : Numbers.significant(a.reading().ohms(), 3),
                        words(a),
                        a.why(),
                        a.test()))
                .toList();
        List<String> tests = answers.stream()
                .filter(a -> !a.test().isEmpty())
                .map(a -> a.reading().pair() + ": " + a.test() + ".")
                .toList();
        List<Leaflet.Section> sections = new ArrayList<>();
        sections.add(Leaflet.Section.of(
                "What lies between the contacts",
                List.of(),
                List.of("contacts", "ohm", "answer", "why", "still to be tested"),
                rows));
        sections.add(Leaflet.Section.of(
                "To be tested next",
                tests.isEmpty() ? List.of("Nothing: every winding has its resistance and its second test.") : tests));
        List<List<String>> table = new ArrayList<>();
        for (Map.Entry<Winding, Ranges.Range> range : ranges.of().entrySet()) {
            table.add(List.of(
                    range.getKey().title(),
                    Numbers.significant(range.getValue().fromOhms(), 3) + " to "
                            + Numbers.significant(range.getValue().toOhms(), 3),
                    range.getKey().test()));
        }
        table.add(List.of("any to the frame", "above " + Numbers.machine(ranges.frameOhms()), "licensed practice"));
        sections.add(Leaflet.Section.of(
                "What was taken for usual",
                List.of("Common practice for motors of household appliances; give your own ranges with --ranges."),
                List.of("winding", "ohm", "second test"),
                table));
        return new Leaflet("Which contact is which", lead(answers), sections, CAUTION);
    }

    private static String words(Answer answer) {
        String what =
                CheckWords.list(answer.candidates().stream().map(Winding::title).toList());
        return switch (answer.kind()) {
            case KNOWN -> what;
            case LIKELY -> "likely " + what;
            case OPEN -> answer.candidates().isEmpty() ? "not told" : "not told: " + what.replace(" and ", " or ");
            case NONE -> Answer.Kind.NONE.word();
            case STOP -> "STOP";
        };
    }

    private static String lead(List<Answer> answers) {
        List<String> stops = answers.stream()
                .filter(a -> a.kind() == Answer.Kind.STOP)
                .map(a -> a.reading().pair())
                .toList();
        if (!stops.isEmpty()) {
            return "STOP: " + CheckWords.list(stops) + ". See why below.";
        }
        String known = said(answers, Answer.Kind.KNOWN, " is ");
        String likely = said(answers, Answer.Kind.LIKELY, " is likely ");
        long open = answers.stream().filter(a -> a.kind() == Answer.Kind.OPEN).count();
        String rest = open == 0 ? "" : open == 1 ? "1 pair cannot be told yet." : open + " pairs cannot be told yet.";
        String all = (known + likely + rest).strip();
        return all.isEmpty() ? "Nothing of the table lies between these contacts." : all;
    }

    private static String said(List<Answer> answers, Answer.Kind kind, String verb) {
        List<String> words = answers.stream()
                .filter(a -> a.kind() == kind)
                .map(a -> a.reading().pair() + verb + "the "
                        + a.candidates().get(0).title())
                .toList();
        return words.isEmpty() ? "" : CheckWords.list(words) + ". ";
    }
}
