package org.steadyshaft.response;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.response.Regulation.Reference;

/**
 * Speed regulation against worked examples.
 *
 * <p>Source: S. J. Chapman and others, Electric Machinery Fundamentals (definition read in a course hand-out, numbers in a question
 * page); the second example continues one of a textbook-companion collection (FOSSEE695-2.45, inputs read, result recomputed).
 *
 * <p>Tolerance: exact for 1800 and 1600 rpm; the second starts from a speed printed to 0.1 rpm of 859, so 0.01 points.
 */
class RegulationPublishedTest {
    private static final String FILE = "speed_worked_examples.csv";

    private static double number(String pattern, String text) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        if (!matcher.find()) {
            throw new AssertionError("no " + pattern + " in " + text);
        }
        return Double.parseDouble(matcher.group(1));
    }

    @Test
    void theShareOfTheLoadedSpeed() {
        List<Row> rows = PublishedTable.rows(FILE, r -> r.text("example").equals("speed_regulation"));
        Row first = rows.get(0);
        double light = number("no load (\\d+) rpm", first.text("inputs"));
        double loaded = number("full load (\\d+) rpm", first.text("inputs"));
        assertEquals(
                first.number("published"),
                Regulation.of(light, 0, loaded, 0, Reference.LOADED).percent(),
                1e-12);
        Row before = PublishedTable.rows(FILE, r -> r.text("example").equals("no_load_speed"))
                .get(0);
        assertEquals(
                rows.get(1).number("recomputed"),
                Regulation.of(
                                before.number("recomputed"),
                                0,
                                number("; (\\d+) rpm at", before.text("inputs")),
                                0,
                                Reference.LOADED)
                        .percent(),
                0.01);
    }

    /** Against differences of the value itself when one speed is moved: the law of propagation without its formula. */
    @Test
    void uncertaintyIsWhatMovedSpeedsGive() {
        for (Reference reference : Reference.values()) {
            double light = Regulation.of(1800.5, 0, 1600, 0, reference).percent()
                    - Regulation.of(1799.5, 0, 1600, 0, reference).percent();
            double loaded = Regulation.of(1800, 0, 1600.5, 0, reference).percent()
                    - Regulation.of(1800, 0, 1599.5, 0, reference).percent();
            assertEquals(
                    Math.hypot(2 * light, 3 * loaded),
                    Regulation.of(1800, 2, 1600, 3, reference).standardUncertaintyPercent(),
                    1e-5,
                    reference.word());
        }
    }

    @Test
    void nonsenseIsRefused() {
        for (double bad : new double[] {0, -1, Double.NaN}) {
            assertThrows(
                    IllegalArgumentException.class, () -> Regulation.of(bad, 0, 1600, 0, Reference.LOADED), "" + bad);
            assertThrows(
                    IllegalArgumentException.class, () -> Regulation.of(1800, 0, bad, 0, Reference.LOADED), "" + bad);
        }
        assertThrows(IllegalArgumentException.class, () -> Regulation.of(1800, -1, 1600, 0, Reference.LIGHT));
    }
}
