package org.steadyshaft.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.report.CaptureSummary;
import org.steadyshaft.signal.Grade;

/** What stands on the terminal at the end of a run. */
class SummaryTableTest {
    private static CaptureSummary summary(String folder, String circuit, SpeedHeld held) {
        return new CaptureSummary(
                folder,
                folder + ".wav",
                new CaptureLabel(circuit, "knob 3", "none", "", Map.of()),
                Grade.GOOD,
                Optional.of(new CaptureSummary.Figures(
                        907.3, 0.1, Optional.of(0.1234), Optional.of(0.5), Optional.of(3), Optional.of(1.5))),
                List.of(),
                held,
                "words",
                List.of(),
                "");
    }

    private static final List<CaptureSummary> FOUR = List.of(
            summary("wheel1-slow-light-second-day", "timer with field from DC", SpeedHeld.YES),
            summary("wheel1-mid", "timer with field from DC", SpeedHeld.NO),
            summary("wheel1-fast", "RC and diac", SpeedHeld.NO),
            summary("wheel1-away", "RC and diac", SpeedHeld.RUNAWAY));

    private static List<String> lines(List<CaptureSummary> summaries, Screen screen) {
        StringWriter words = new StringWriter();
        SummaryTable.print(summaries, screen, new PrintWriter(words));
        return words.toString().lines().toList();
    }

    @ParameterizedTest
    @ValueSource(ints = {66, 72, 80, 100, 132})
    void noLineIsWiderThanTheScreen(int columns) {
        List<String> lines = lines(FOUR, new Screen(columns, false));
        assertEquals(FOUR.size() + 2, lines.size());
        lines.subList(0, lines.size() - 1).forEach(l -> assertTrue(l.length() <= columns, l));
        lines.subList(1, lines.size() - 1).forEach(l -> assertTrue(l.contains("907.3") && l.contains("good"), l));
    }

    @Test
    void withoutAScreenNothingIsNarrowedOrColoured() {
        List<String> lines = lines(FOUR, Screen.NONE);
        assertTrue(lines.get(1).startsWith("wheel1-slow-light-second-day  holds"), lines.get(1));
        assertTrue(lines.get(1).endsWith("timer with field from DC"), lines.get(1));
        assertTrue(lines.stream().noneMatch(l -> l.contains("\u001b")), lines.toString());
    }

    @Test
    void aColourTakesNoRoom() {
        List<String> plain = lines(FOUR, new Screen(100, false));
        List<String> coloured = lines(FOUR, new Screen(100, true));
        assertFalse(coloured.equals(plain));
        assertEquals(
                plain,
                coloured.stream()
                        .map(l -> l.replaceAll("\u001b\\[[0-9;]*m", ""))
                        .toList());
        assertTrue(coloured.get(4).matches(".*\u001b\\[[0-9;]*31m[^m]*RAN AWAY.*|.*31.*RAN AWAY.*"), coloured.get(4));
    }

    @Test
    void oneLineTellsOfAll() {
        assertEquals(
                "4 captures: 1 holds its speed, 2 do NOT hold their speed, 1 RAN AWAY",
                lines(FOUR, Screen.NONE).get(5));
        assertEquals(
                "1 capture: 1 cannot be told",
                lines(List.of(summary("a", "", SpeedHeld.CANNOT_TELL)), Screen.NONE)
                        .get(2));
    }
}
